// The runtime's WebAssembly made smaller: smaller_node.mjs SCRIPT TARGET
//
// SCRIPT is the runtime's own script as it will be used, TARGET gets the module.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve as absolute } from "node:path";
import { fileURLToPath } from "node:url";
import { write } from "./wasm/module.mjs";
import { RELOCATE, prelinked } from "./wasm/prelink.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const source = join(here, "..", ".build", "npm", "node_modules", "pyodide");
const [, , script, target] = process.argv;
const wasm = readFileSync(join(source, "pyodide.asm.wasm"));

/** Start the runtime as far as its addresses: their values, and the memory from where its data begins. */
function relocated() {
  const { instantiate } = WebAssembly;
  const module = new WebAssembly.Module(wasm);
  return new Promise((resolve, reject) => {
    WebAssembly.instantiate = async (given, imports) => {
      if (given instanceof WebAssembly.Module) return instantiate(given, imports);
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

const words = new Set(readFileSync(script, "utf8").match(/[\w$]+/g));
const smaller = prelinked(wasm, await relocated(), words);
writeFileSync(target, write(smaller));
process.exit(0);
