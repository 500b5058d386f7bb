// The runtime with what is known before it starts: prelinked(bytes, known, words).
//
// It is made to be loaded anywhere: where its data and its table begin is told to it at the start,
// and then it adds that to some hundred thousand addresses. Here both are always the same, so the
// sums are done once: in the code, and in the data, by taking what its own function made of it.

import { IMPORTED, OP, END, Writer, imported, read } from "./module.mjs";
import { firstInstruction, instructions } from "./body.mjs";
import { reduced } from "./reduce.mjs";

export const RELOCATE = "__wasm_apply_data_relocs";
const BASES = ["env.__memory_base", "env.__table_base"];
const NOTHING = Uint8Array.of(0, END);
const FILL = 11;
/** A run of so many zeros is cheaper left out: fresh memory is zero. */
const ZEROS = 16;

const needs = (holds, what) => {
  if (!holds) throw new Error(`The runtime has changed: ${what} must be looked at.`);
};

/** The globals that a module imports, each with the value that a start showed. */
function importedGlobals(module, shown) {
  const imports = module.imports.filter(({ kind }) => kind === IMPORTED.global);
  return imports.map((each) => ({ ...each, value: shown[`${each.module}.${each.name}`] }));
}

/** The values that are known beforehand: where data and table begin, and addresses that are missing. */
function knownGlobals(module, imports) {
  const values = new Map();
  imports.forEach(({ module: from, name, value }, index) => {
    const isMissing = from === "GOT.func" && value === 0;
    if (BASES.includes(`${from}.${name}`) || isMissing) values.set(index, value);
  });
  module.globals.forEach((each, index) => {
    if (!each.mutable && each.op === OP.i32Const) values.set(imports.length + index, each.value);
  });
  return values;
}

/** Do what the start function does: set globals, and fill memory with zeros, which it holds anyway. */
function runStart(body, values) {
  const stack = [];
  for (const { op, value, from, to } of instructions(body)) {
    if (op === OP.i32Const) stack.push(value);
    else if (op === OP.getGlobal && values.has(value)) stack.push(values.get(value));
    else if (op === OP.i32Add) stack.push((stack.pop() + stack.pop()) | 0);
    else if (op === OP.setGlobal) values.set(value, stack.pop());
    else if (op === 0xfc && body[from + 1] === FILL) needs(stack.splice(-3)[1] === 0, "its start");
    else needs(op === END && to === body.length, `instruction ${op} of its start`);
  }
  needs(stack.length === 0, "its start");
}

/** A body in which known globals are numbers, and sums of two numbers one. */
function folded(body, values) {
  const out = new Writer(body.length + 64);
  const start = firstInstruction(body);
  out.put(body.subarray(0, start));
  // The numbers that the last instructions push, and where in `out` each does.
  let pushed = [];
  const push = (value) => {
    pushed.push({ value, at: out.length });
    out.byte(OP.i32Const).signed(value);
  };
  for (const { op, value, from, to } of instructions(body)) {
    if (op === OP.i32Const) push(value);
    else if (op === OP.getGlobal && values.has(value)) push(values.get(value));
    else if (op === OP.i32Add && pushed.length > 1) {
      const [one, other] = pushed.splice(-2);
      out.length = one.at;
      push((one.value + other.value) | 0);
    } else {
      pushed = [];
      out.put(body.subarray(from, to));
    }
  }
  return out.done();
}

/** Data at `offset`, in pieces between its longer runs of zeros. */
function pieces(bytes, offset) {
  const found = [];
  const end = bytes.length;
  for (let from = 0; from < end; ) {
    while (from < end && bytes[from] === 0) from += 1;
    let to = from;
    for (let zeros = 0; to < end && zeros < ZEROS; to += 1) zeros = bytes[to] ? 0 : zeros + 1;
    let last = to;
    while (last > from && bytes[last - 1] === 0) last -= 1;
    if (last > from) {
      found.push({ offset: { op: OP.i32Const, value: offset + from }, bytes: bytes.subarray(from, last) });
    }
    from = to;
  }
  return found;
}

/**
 * Return the module of `bytes` without its relocations. `known` holds what a start showed: `globals` by
 * their import ("env.__memory_base"), and in `memory` what stood there afterwards. Only exports that
 * are among `words` are kept. Each function notes its index in `bytes`.
 */
export function prelinked(bytes, known, words) {
  const module = read(bytes);
  const [base, tableBase] = BASES.map((name) => known.globals[name]);
  needs(base === 1024 && tableBase === 1, "where its data and table begin");
  needs(module.data.length === 1 && module.elements.length === 1, "its data");
  const firstOwn = imported(module, IMPORTED.function);
  const own = (index) => module.functions[index - firstOwn];
  const imports = importedGlobals(module, known.globals);
  const values = knownGlobals(module, imports);
  const [data] = module.data;
  const [elements] = module.elements;
  needs(values.get(data.offset.value) === base && values.get(elements.offset.value) === tableBase, "its data");
  runStart(own(module.start).body, values);
  const relocate = module.exports.find(({ name }) => name === RELOCATE);
  module.functions.forEach((each, n) => {
    each.index = firstOwn + n;
    for (const { op, value } of each.index === module.start ? [] : instructions(each.body)) {
      needs(op !== OP.setGlobal || !values.has(value), "a global that is set later");
      // An address that the script fixes as well, or else a start of another kind would give another.
      const isFixed = op !== OP.getGlobal || values.has(value) || words.has(String(imports[value]?.value));
      needs(isFixed || each.index !== relocate.index, "an address in its data");
    }
  });
  for (const each of module.functions) {
    const done = [module.start, relocate.index].includes(each.index);
    each.body = done ? NOTHING : folded(each.body, values);
  }
  return reduced({
    ...module,
    start: null,
    exports: module.exports.filter(({ name }) => words.has(name)),
    elements: [{ ...elements, offset: { op: OP.i32Const, value: tableBase } }],
    data: pieces(known.memory, base),
  });
}
