// A WebAssembly module taken apart and put together again, by the core specification (2.0, with the
// exception handling that compilers emit): sections, indices, and where in a body they stand.
// What isn't known is an error: nothing here guesses.

export const IMPORTED = { function: 0, table: 1, memory: 2, global: 3, tag: 4 };
export const I32 = 0x7f;
export const END = 0x0b;
export const OP = { call: 0x10, getGlobal: 0x23, setGlobal: 0x24, i32Const: 0x41, i32Add: 0x6a };
/** The sections in the order in which they have to stand, by their numbers. */
const ORDER = [1, 2, 3, 4, 5, 13, 6, 7, 8, 9, 12, 10, 11];
const CUSTOM = 0;
const HEADER = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0];

/** Reads numbers and vectors one after the other. */
export class Reader {
  constructor(bytes, at = 0) {
    this.bytes = bytes;
    this.at = at;
  }

  byte() {
    return this.bytes[this.at++];
  }

  /** An unsigned number of up to 32 bits. */
  number() {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.byte();
      value += (byte & 0x7f) * 2 ** shift;
      if (byte < 0x80) return value;
    }
  }

  /** A signed number of up to 32 bits. */
  signed() {
    let value = 0;
    for (let shift = 0; ; ) {
      const byte = this.byte();
      value |= (byte & 0x7f) << shift;
      shift += 7;
      if (byte < 0x80) return shift < 32 && byte & 0x40 ? value | (-1 << shift) : value;
    }
  }

  skipNumber() {
    while (this.byte() >= 0x80);
  }

  take(length) {
    this.at += length;
    return this.bytes.subarray(this.at - length, this.at);
  }

  name() {
    return Buffer.from(this.take(this.number())).toString("utf8");
  }

  vector(read) {
    return Array.from({ length: this.number() }, read);
  }
}

/** Gathers bytes. */
export class Writer {
  constructor(room = 1024) {
    this.bytes = Buffer.alloc(room);
    this.length = 0;
  }

  room(more) {
    if (this.length + more <= this.bytes.length) return;
    const larger = Buffer.alloc(2 * (this.length + more));
    this.bytes.copy(larger, 0, 0, this.length);
    this.bytes = larger;
  }

  byte(value) {
    this.room(1);
    this.bytes[this.length++] = value;
    return this;
  }

  number(value) {
    for (; value >= 0x80; value = Math.floor(value / 0x80)) this.byte((value % 0x80) | 0x80);
    return this.byte(value);
  }

  signed(value) {
    for (; value < -0x40 || value >= 0x40; value >>= 7) this.byte((value & 0x7f) | 0x80);
    return this.byte(value & 0x7f);
  }

  put(bytes) {
    this.room(bytes.length);
    this.bytes.set(bytes, this.length);
    this.length += bytes.length;
    return this;
  }

  /** Bytes with their number in front. */
  sized(bytes) {
    return this.number(bytes.length).put(bytes);
  }

  name(text) {
    return this.sized(Buffer.from(text, "utf8"));
  }

  vector(items, write) {
    this.number(items.length);
    items.forEach((item, index) => write(item, index));
    return this;
  }

  done() {
    return this.bytes.subarray(0, this.length);
  }
}

export function written(write) {
  const out = new Writer();
  write(out);
  return out.done();
}

/** The limits of a table or a memory, as bytes. */
function limits(input) {
  const from = input.at;
  const flags = input.byte();
  if (flags > 1) throw new Error(`Limits of kind ${flags} are not known.`);
  input.skipNumber();
  if (flags & 1) input.skipNumber();
  return input.bytes.subarray(from, input.at);
}

function readImport(input) {
  const module = input.name();
  const name = input.name();
  const kind = input.byte();
  const from = input.at;
  if (kind === IMPORTED.function) return { module, name, kind, type: input.number() };
  if (kind === IMPORTED.table) input.byte();
  if (kind === IMPORTED.table || kind === IMPORTED.memory) limits(input);
  else if (kind === IMPORTED.global) input.take(2);
  else if (kind === IMPORTED.tag && input.byte() === 0) input.skipNumber();
  else throw new Error(`An import of kind ${kind} is not known.`);
  return { module, name, kind, description: input.bytes.subarray(from, input.at) };
}

/** A constant expression of one instruction: what it does, and its number. */
function constant(input) {
  const op = input.byte();
  const value = op === OP.i32Const ? input.signed() : input.number();
  if (![OP.i32Const, OP.getGlobal].includes(op) || input.byte() !== END) {
    throw new Error(`A constant by instruction ${op} is not known.`);
  }
  return { op, value };
}

function writeConstant(out, { op, value }) {
  out.byte(op);
  if (op === OP.i32Const) out.signed(value);
  else out.number(value);
  out.byte(END);
}

/** A global's type and its first value, which stays as bytes: only one of kind i32 is looked into. */
function readGlobal(input) {
  const type = input.byte();
  const mutable = input.byte() === 1;
  const from = input.at;
  if (type !== I32) throw new Error(`A global of type ${type} is not known.`);
  const { op, value } = constant(input);
  return { type, mutable, op, value, init: input.bytes.subarray(from, input.at) };
}

/** Return what is in a module: its sections as they are, and those that are worked on as lists. */
export function read(bytes) {
  const input = new Reader(bytes);
  if (HEADER.some((byte) => input.byte() !== byte)) throw new Error("This is no module.");
  const sections = new Map();
  const custom = [];
  while (input.at < bytes.length) {
    const id = input.byte();
    const content = input.take(input.number());
    if (id === CUSTOM) custom.push(content);
    else if (ORDER.includes(id)) sections.set(id, content);
    else throw new Error(`A section of kind ${id} is not known.`);
  }
  const list = (id, item) => {
    if (!sections.has(id)) return [];
    const content = new Reader(sections.get(id));
    const found = content.vector(() => item(content));
    if (content.at !== sections.get(id).length) throw new Error(`Section ${id} has a rest.`);
    return found;
  };
  const types = list(1, (each) => {
    const from = each.at;
    if (each.byte() !== 0x60) throw new Error("A type that is no function's is not known.");
    const results = () => each.vector(() => each.byte());
    return { parameters: results(), results: results(), bytes: each.bytes.subarray(from, each.at) };
  });
  const kinds = list(3, (each) => each.number());
  const bodies = list(10, (each) => each.take(each.number()));
  return {
    custom,
    types,
    imports: list(2, readImport),
    functions: kinds.map((type, n) => ({ type, body: bodies[n] })),
    tables: list(4, (each) => {
      const from = each.at;
      each.byte();
      limits(each);
      return each.bytes.subarray(from, each.at);
    }),
    memories: list(5, limits),
    tags: list(13, (each) => each.take(2)),
    globals: list(6, readGlobal),
    exports: list(7, (each) => ({ name: each.name(), kind: each.byte(), index: each.number() })),
    start: sections.has(8) ? new Reader(sections.get(8)).number() : null,
    elements: list(9, readElements),
    data: list(11, (each) => {
      if (each.number() !== 0) throw new Error("Data of that kind is not known.");
      return { offset: constant(each), bytes: each.take(each.number()) };
    }),
  };
}

function readElements(input) {
  const kind = input.number();
  const table = kind === 2 ? input.number() : 0;
  if (kind !== 0 && kind !== 2) throw new Error(`Elements of kind ${kind} are not known.`);
  const offset = constant(input);
  if (kind === 2 && input.byte() !== 0) throw new Error("Elements that are no functions.");
  return { table, offset, functions: input.vector(() => input.number()) };
}

/** Return the bytes of a module; the opposite of `read`. */
export function write(module) {
  const sections = new Map();
  const list = (id, items, item) => {
    if (items.length) sections.set(id, written((out) => out.vector(items, (each) => item(out, each))));
  };
  list(1, module.types, (out, type) => out.put(type.bytes));
  list(2, module.imports, (out, each) => {
    out.name(each.module).name(each.name).byte(each.kind);
    if (each.kind === IMPORTED.function) out.number(each.type);
    else out.put(each.description);
  });
  list(3, module.functions, (out, each) => out.number(each.type));
  list(4, module.tables, (out, each) => out.put(each));
  list(5, module.memories, (out, each) => out.put(each));
  list(13, module.tags, (out, each) => out.put(each));
  list(6, module.globals, (out, each) => {
    out.byte(each.type).byte(each.mutable ? 1 : 0);
    writeConstant(out, each);
  });
  list(7, module.exports, (out, each) => out.name(each.name).byte(each.kind).number(each.index));
  if (module.start !== null) sections.set(8, written((out) => out.number(module.start)));
  list(9, module.elements, (out, each) => {
    out.number(each.table ? 2 : 0);
    if (each.table) out.number(each.table);
    writeConstant(out, each.offset);
    if (each.table) out.byte(0);
    out.vector(each.functions, (index) => out.number(index));
  });
  list(10, module.functions, (out, each) => out.sized(each.body));
  list(11, module.data, (out, each) => {
    out.number(0);
    writeConstant(out, each.offset);
    out.sized(each.bytes);
  });
  return written((out) => {
    out.put(HEADER);
    for (const content of module.custom) out.byte(CUSTOM).sized(content);
    for (const id of ORDER) if (sections.has(id)) out.byte(id).sized(sections.get(id));
  });
}

/** How many of a kind a module imports: the index of the first that is its own. */
export function imported(module, kind) {
  return module.imports.filter((each) => each.kind === kind).length;
}
