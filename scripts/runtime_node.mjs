// What the build asks of the runtime outside a browser: which modules are used, to compile
// an archive, and to answer requests. Run by node; prints one line of JSON at the end.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";

const here = dirname(fileURLToPath(import.meta.url));
const npm = join(here, "..", ".build", "npm", "node_modules");
const require = createRequire(import.meta.url);
const [, , task, ...rest] = process.argv;
const quiet = { stdout: () => undefined, stderr: () => undefined };

function emptyIndex() {
  const lock = JSON.parse(readFileSync(join(npm, "pyodide", "pyodide-lock.json"), "utf8"));
  return JSON.stringify({ info: lock.info, packages: {} });
}

function unpacked(file) {
  const bytes = readFileSync(file);
  return bytes[0] === 0x1f ? gunzipSync(bytes) : bytes;
}

// The members of a stored zip.
function storedMembers(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.byteLength - 22;
  const members = [];
  let at = view.getUint32(end + 16, true);
  for (let n = 0; n < view.getUint16(end + 10, true); n += 1) {
    const name = view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    members.push({
      path: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + name)),
      bytes: bytes.subarray(start, start + view.getUint32(at + 24, true)),
    });
    at += 46 + name + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return members;
}

async function start(packages, options = {}, script = join(npm, "pyodide", "pyodide.js")) {
  return require(script).loadPyodide({
    ...quiet,
    indexURL: join(npm, "pyodide"),
    lockFileContents: emptyIndex(),
    fsInit: async (files, info) => {
      for (const { path, bytes } of packages ? storedMembers(unpacked(packages)) : []) {
        const target = `${info.sitePackages}/${path}`;
        files.mkdirTree(dirname(target));
        files.writeFile(target, bytes);
      }
    },
    ...options,
  });
}

// The finished runtime, as the browser has it.
async function startFinished(script, manifestFile, options = {}) {
  const folder = dirname(resolve(script));
  const manifest = JSON.parse(readFileSync(manifestFile, "utf8"));
  const library = `${manifestFile}.library.zip`;
  // A memory needs no library, so it gets none.
  joinRest(join(folder, manifest.cold?.name ?? ""));
  const bytes = options._loadSnapshot ? "" : unpacked(join(folder, manifest.library.name));
  writeFileSync(library, bytes);
  const finished = {
    indexURL: folder,
    stdLibURL: resolve(library),
    lockFileContents: manifest.index,
  };
  return start(null, { ...finished, ...options }, resolve(script));
}

// The exports of the runtime that was started last.
let running;

// Let the runtime load the part of it that is hardly ever called.
function joinRest(file) {
  const { instantiate } = WebAssembly;
  WebAssembly.instantiate = async (given, imports) => {
    if (given instanceof WebAssembly.Module || !imports?.env) return instantiate(given, imports);
    const module = await WebAssembly.compile(given);
    const load = () => {
      const rest = new WebAssembly.Module(readFileSync(file));
      new WebAssembly.Instance(rest, { ...imports, first: running });
    };
    const instance = await instantiate(module, { ...imports, cold: { load } });
    running = instance.exports;
    return { module, instance };
  };
}

// The same sources give the same memory, on any machine at any time.
function stopTheWorld() {
  const moment = Date.UTC(2020, 0, 1);
  Date.now = () => moment;
  performance.now = () => 0;
  crypto.getRandomValues = (bytes) => bytes.fill(7);
  // Python notes how it was started.
  process.argv[1] = "python";
}

function ready(python) {
  python.pyimport("dataclass_methods");
  return python.pyimport("calc.render.live").respond;
}

const given = (requests) => JSON.parse(readFileSync(requests, "utf8"));

const tasks = {
  // modules LIBRARY PACKAGES REQUESTS MORE: the files, of the library and of the packages, that answering
  // every request imports or opens, and the methods that dataclasses write on the way; and the answers
  // to these and to more
  async modules(library, packages, requests, more) {
    const python = await start(packages, { stdLibURL: resolve(library) });
    const place = "/lib/python3.13/site-packages";
    python.FS.writeFile(`${place}/watching.py`, readFileSync(join(here, "watching.py")));
    const watching = python.pyimport("watching");
    const { respond } = python.pyimport("calc.render.live");
    const answers = given(requests).map((request) => respond(request));
    const found = JSON.parse(watching.found(place));
    return { ...found, answers: [...answers, ...given(more).map((request) => respond(request))] };
  },

  // compile SOURCE TARGET LEVEL: every module of a zip compiled by the runtime's own Python
  async compile(source, target, level) {
    const python = await start(null, { env: { PYTHONNODEBUGRANGES: "1" } });
    python.FS.writeFile("/tmp/source.zip", readFileSync(source));
    python.globals.set("LEVEL", Number(level));
    python.runPython(`
import py_compile, zipfile
mode = py_compile.PycInvalidationMode.CHECKED_HASH
with zipfile.ZipFile("/tmp/source.zip") as given, zipfile.ZipFile("/tmp/target.zip", "w") as made:
    for name in given.namelist():
        data = given.read(name)
        if name.endswith(".py"):
            with open("/tmp/one.py", "wb") as handle:
                handle.write(data)
            py_compile.compile("/tmp/one.py", "/tmp/one.pyc", name, True, LEVEL, mode)
            with open("/tmp/one.pyc", "rb") as handle:
                data = handle.read()
            name += "c"
        made.writestr(name, data)`);
    writeFileSync(target, python.FS.readFile("/tmp/target.zip"));
    return true;
  },

  // snapshot SCRIPT MANIFEST REQUESTS TARGET: the memory of a Python that has answered every request;
  // returns the answers
  async snapshot(script, manifestFile, requests, target) {
    stopTheWorld();
    const options = { _makeSnapshot: true, env: { PYTHONHASHSEED: "0" } };
    const python = await startFinished(script, manifestFile, options);
    // Nothing is imported or read later, so a start from this memory needs no library.
    const { rows } = python.pyimport("calc.tables");
    for (const { path } of storedMembers(readFileSync(`${manifestFile}.library.zip`))) {
      const [, module] = /^(.*?)(?:[/]__init__)?[.]pyc$/.exec(path) ?? [];
      const [, table] = /^calc[/]tables[/](.*)[.]csv$/.exec(path) ?? [];
      if (module) python.pyimport(module.replaceAll("/", ".")).destroy();
      if (table) rows(table).destroy();
    }
    const answering = ready(python);
    const answers = given(requests).map((request) => answering(request));
    python.pyimport("gc").collect();
    writeFileSync(target, python.makeMemorySnapshot());
    return answers;
  },

  // ran SCRIPT MANIFEST REQUESTS [SNAPSHOT]: the functions that run, in a runtime that notes them
  async ran(...files) {
    await this.answer(...files);
    const hits = Object.keys(running).filter((name) => /^hit\d+$/.test(name) && running[name].value);
    return hits.map((name) => Number(name.slice(3)));
  },

  // answer SCRIPT MANIFEST REQUESTS [SNAPSHOT]: what the finished runtime answers
  async answer(script, manifestFile, requests, snapshot) {
    const options = snapshot ? { _loadSnapshot: unpacked(snapshot) } : {};
    const python = await startFinished(script, manifestFile, options);
    const answering = ready(python);
    return given(requests).map((request) => answering(request));
  },
};

const result = await tasks[task](...rest).catch((problem) => {
  // Without the line of the runtime's own script that node would print first.
  process.stderr.write(String(problem?.message ?? problem), () => process.exit(1));
  return new Promise(() => undefined);
});
process.stdout.write(`${JSON.stringify(result)}\n`, () => process.exit(0));
