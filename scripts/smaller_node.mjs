// The runtime's WebAssembly made smaller: smaller_node.mjs SCRIPT TARGET [RUNS | instrument]
//
// SCRIPT is the runtime's own script as it will be used, TARGET gets the module. RUNS says which of its
// functions run, by their indices: all others go into TARGET.cold, if RUNS was made of this runtime.
// With "instrument" the module notes which functions run.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve as absolute } from "node:path";
import { fileURLToPath } from "node:url";
import { instrumented } from "./wasm/instrument.mjs";
import { write } from "./wasm/module.mjs";
import { RELOCATE, prelinked } from "./wasm/prelink.mjs";
import { split } from "./wasm/split.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const source = join(here, "..", ".build", "npm", "node_modules", "pyodide");
const [, , script, target, runs] = process.argv;
const wasm = readFileSync(join(source, "pyodide.asm.wasm"));

/** Start the runtime as far as its addresses: their values, and the memory from where its data begins. */
function relocated() {
  const { instantiate } = WebAssembly;
  const module = new WebAssembly.Module(wasm);
  return new Promise((resolve, reject) => {
    WebAssembly.instantiate = async (given, imports) => {
      if (given instanceof WebAssembly.Module || !imports?.env) return instantiate(given, imports);
      const instance = await instantiate(module, imports);
      const relocate = () => {
        instance.exports[RELOCATE]();
        const wanted = WebAssembly.Module.imports(module).filter(({ kind }) => kind === "global");
        const globals = Object.fromEntries(
          wanted.map(({ module: from, name }) => [`${from}.${name}`, imports[from][name].value]),
        );
        const { buffer } = imports.env.memory;
        resolve({ globals, memory: Buffer.from(buffer.slice(globals["env.__memory_base"])) });
        throw new Error("That is all.");
      };
      return { module, instance: { exports: { ...instance.exports, [RELOCATE]: relocate } } };
    };
    createRequire(import.meta.url)(absolute(script)).loadPyodide({ indexURL: source }).catch(reject);
  });
}

/** The numbers of a list like "3 5-7": each alone, or the first and the last of some. */
function listed(text) {
  return text.split(" ").flatMap((part) => {
    const [first, last = first] = part.split("-").map(Number);
    return Array.from({ length: last - first + 1 }, (_, n) => first + n);
  });
}

const words = new Set(readFileSync(script, "utf8").match(/[\w$]+/g));
const smaller = prelinked(wasm, await relocated(), words);
if (runs === "instrument") writeFileSync(target, write(instrumented(smaller)));
else {
  const { sha256, functions } = runs ? JSON.parse(readFileSync(runs, "utf8")) : {};
  if (sha256 === createHash("sha256").update(wasm).digest("hex")) {
    const stays = new Set(listed(functions));
    const { first, second } = split(smaller, ({ index }) => stays.has(index));
    writeFileSync(target, write(first));
    writeFileSync(`${target}.cold`, write(second));
  } else writeFileSync(target, write(smaller));
}
process.exit(0);
