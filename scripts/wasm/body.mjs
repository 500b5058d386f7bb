// The instructions of a function's body, one after the other, and the body with other indices.

import { OP, Reader, Writer } from "./module.mjs";

const MEMORY = [0x28, 0x3e];
const PLAIN = [0x45, 0xc4];
const BLOCKS = [0x02, 0x03, 0x04, 0x06];
const NOTHING = [0x00, 0x01, 0x05, 0x0b, 0x0f, 0x19, 0x1a, 0x1b, 0xd1];
/** Local variables, branches, the tags of exceptions, tables, and the size of the memory. */
const ONE_NUMBER = [0x07, 0x08, 0x09, 0x0c, 0x0d, 0x18, 0x20, 0x21, 0x22, 0x25, 0x26, 0x3f, 0x40, 0xd0];
/** How many numbers follow the second byte of an instruction that has two. */
const LONG = { 0: 0, 1: 0, 2: 0, 3: 0, 4: 0, 5: 0, 6: 0, 7: 0, 10: 2, 11: 1, 15: 1, 16: 1, 17: 1 };

const between = (op, [from, to]) => op >= from && op <= to;

/** Read the rest of an instruction; returns the index of what it names, or null. */
function rest(input, op) {
  if (between(op, PLAIN) || NOTHING.includes(op)) return null;
  if (op === OP.call || op === OP.getGlobal || op === OP.setGlobal) return input.number();
  if (op === OP.i32Const) return input.signed();
  if (between(op, MEMORY)) {
    // More than one memory would be told by the alignment.
    if (input.number() >= 64) throw new Error("An instruction for a second memory.");
    input.skipNumber();
  } else if (BLOCKS.includes(op) || ONE_NUMBER.includes(op) || op === 0x42) input.skipNumber();
  else if (op === 0x43) input.take(4);
  else if (op === 0x44) input.take(8);
  else if (op === 0x0e) for (let n = input.number(); n >= 0; n -= 1) input.skipNumber();
  else if (op === 0x1c) input.take(input.number());
  else if (op === 0x11) {
    input.skipNumber();
    input.skipNumber();
  } else if (op === 0xfc) {
    const more = LONG[input.number()];
    if (more === undefined) throw new Error("A long instruction that is not known.");
    for (let n = 0; n < more; n += 1) input.skipNumber();
  } else throw new Error(`The instruction ${op} is not known.`);
  return null;
}

/** Where the first instruction stands, behind the local variables. */
function afterLocals(input) {
  for (let n = input.number(); n > 0; n -= 1) {
    input.skipNumber();
    input.byte();
  }
}

/** Yield each instruction of a body: what it does, what it names, and where it stands. */
export function* instructions(body) {
  const input = new Reader(body);
  afterLocals(input);
  while (input.at < body.length) {
    const from = input.at;
    const op = input.byte();
    const value = rest(input, op);
    yield { op, value, from, to: input.at };
  }
}

/** Return the functions that a body calls. */
export function callees(body) {
  const found = new Set();
  for (const { op, value } of instructions(body)) if (op === OP.call) found.add(value);
  return found;
}

/** Return a body with other functions and globals. */
export function reindexed(body, functionAt, globalAt) {
  const out = new Writer(body.length + 64);
  let kept = 0;
  for (const { op, value, from, to } of instructions(body)) {
    let index;
    if (op === OP.call) index = functionAt(value);
    else if (op === OP.getGlobal || op === OP.setGlobal) index = globalAt(value);
    else continue;
    out.put(body.subarray(kept, from)).byte(op).number(index);
    kept = to;
  }
  return out.put(body.subarray(kept)).done();
}

/** Where the instructions of a body begin. */
export function firstInstruction(body) {
  const input = new Reader(body);
  afterLocals(input);
  return input.at;
}
