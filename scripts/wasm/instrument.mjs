// A module that notes which of its functions ran: each has a global that is 1 once it was called.

import { I32, IMPORTED, OP, Writer, imported } from "./module.mjs";
import { firstInstruction } from "./body.mjs";

const HIT = "hit";

/** Return `module` with such a global for each function, exported under the index that it notes. */
export function instrumented(module) {
  const first = imported(module, IMPORTED.global) + module.globals.length;
  const functions = module.functions.map((each, n) => {
    const start = firstInstruction(each.body);
    const out = new Writer(each.body.length + 16);
    out.put(each.body.subarray(0, start)).byte(OP.i32Const).signed(1).byte(OP.setGlobal).number(first + n);
    return { ...each, body: out.put(each.body.subarray(start)).done() };
  });
  const hits = functions.map(() => ({ type: I32, mutable: true, op: OP.i32Const, value: 0 }));
  const exports = functions.map(({ index }, n) => ({
    name: `${HIT}${index}`,
    kind: IMPORTED.global,
    index: first + n,
  }));
  return {
    ...module,
    functions,
    globals: [...module.globals, ...hits],
    exports: [...module.exports, ...exports],
  };
}
