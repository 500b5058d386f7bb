// The runtime's own script without what the worker never calls: slim_node.mjs TARGET
//
// Most of the script is there for compiled libraries that Python may load later, and for graphics.
// Here none is loaded, so what the runtime itself doesn't import goes, then whatever only that used,
// and terser takes out the rest. A browser reads a third of it, which is part of every start.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const npm = join(here, "..", ".build", "npm", "node_modules");
const { minify } = createRequire(import.meta.url)(join(npm, "terser"));
const [, , target] = process.argv;
const source = (name) => readFileSync(join(npm, "pyodide", name));

const NAME = "[\\w$]+";
const ALIAS = new RegExp(`(?<=[;}])var (${NAME})=(${NAME});`, "g");
/** The runtime holds the addresses of these, for a graphics library inside it. */
const GRAPHICS = /^emscripten_gl[A-Z]/;
const imported = new Set(
  WebAssembly.Module.imports(new WebAssembly.Module(source("pyodide.asm.wasm")))
    .map(({ name }) => name)
    .filter((name) => !GRAPHICS.test(name)),
);
const loader = source("pyodide.js").toString();
let script = source("pyodide.asm.js").toString();

/** Replace every statement that `pattern` finds by what `keep` makes of it; none found is a fault. */
function revise(what, pattern, keep) {
  let changed = 0;
  script = script.replace(new RegExp(`(?<=[;}])${pattern}`, "g"), (statement, ...groups) => {
    const kept = keep(statement, ...groups);
    if (kept !== statement) changed += 1;
    return kept;
  });
  if (!changed) throw new Error(`The runtime's script has changed: ${what} must be looked at.`);
}

function wordCounts(text) {
  const counts = new Map();
  for (const [word] of text.matchAll(/[\w$]+/g)) counts.set(word, (counts.get(word) ?? 0) + 1);
  return counts;
}

// Of the functions offered to compiled code, those that the runtime imports.
const offered = new Set();
revise("what it offers to compiled code", "var wasmImports=\\{([^{}]*)\\};", (_, entries) => {
  const kept = entries.split(",").filter((entry) => imported.has(entry.split(":")[0]));
  for (const entry of kept) offered.add(entry.split(":").at(-1));
  return `var wasmImports={${kept.join(",")}};`;
});

// A function's signature is read only when it is offered, under one of its names.
let names = 0;
while (names !== offered.size) {
  names = offered.size;
  for (const [, name, other] of script.matchAll(ALIAS)) if (offered.has(name)) offered.add(other);
}
revise("signatures", `(${NAME})\\.sig="\\w+";`, (statement, name) =>
  offered.has(name) ? statement : "",
);

// Compiled functions that nobody calls. Each statement names its function two or three times.
const counts = wordCounts(script);
revise("compiled functions", `var (${NAME})=Module\\["\\1"\\]=wasmExports\\["(${NAME})"\\];`, (...all) => {
  const [statement, name, exported] = all;
  const called = counts.get(name) > (name === exported ? 3 : 2) || loader.includes(name);
  return called ? statement : "";
});

// Functions offered on the module object, which only libraries loaded later would look up.
revise("its own functions", `Module\\["(_${NAME})"\\]=\\1;`, (statement, name) =>
  script.includes(`Module.${name}`) || loader.includes(name) ? statement : "",
);

// A place for the address of every exported function: the runtime has asked for its own by then.
const everyPlace = 'GOT[symName]||=new WebAssembly.Global({value:"i32",mutable:true});';
revise("the table of addresses", everyPlace.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"), () =>
  "if(!GOT[symName])continue;",
);

// The graphics functions have no address any more. Each would cost a small module, compiled at every
// start.
revise("addresses that are missing", "if\\(!value&&!entry\\.required\\)\\{continue\\}", () =>
  "if(!value)continue;",
);

// A start from the memory of another compares what Python holds of JavaScript with what it expects;
// with our modules in the place of the runtime's own it holds less.
const EXPECTED = /(?<=API\.getExpectedKeys=function\(\)\{return\[null,[\w$.]+,[\w$.]+)(,[\w$.]+){3},\{\}(?=\]\})/;
if (!EXPECTED.test(script)) throw new Error("What Python holds of JavaScript must be looked at.");
script = script.replace(EXPECTED, "");

// One function that Python calls is made for the engine that it runs on, so it is made anew.
const RESTORED = /(?<=return Module\.HEAP8\.set\([\w$]+\),)(?=[\w$]+\})/;
if (!RESTORED.test(script)) throw new Error("How a memory is restored must be looked at.");
script = script.replace(RESTORED, "_PyEM_InitTrampoline_js(),");

// Compiled libraries may bring JavaScript as text; an eval of its own name would keep everything.
script = script.replace(/(?<![\w.$])eval\(/g, "globalThis.eval(");

const { code } = await minify(script, { compress: { passes: 2 } });
writeFileSync(target, code);
