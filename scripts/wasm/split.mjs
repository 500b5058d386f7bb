// The runtime in two files: what runs, and what is loaded when one of its functions is called first.
//
// Code alone is moved. Data would be as much again, but where an object in it begins and ends can't be
// told from the code, and a wrong guess gives wrong numbers without any error.

import { IMPORTED, OP, END, I32, imported, read, write, written } from "./module.mjs";
import { instructions, reindexed } from "./body.mjs";

/** Where the second file finds what the first one has, and the first one what loads the second. */
export const FIRST = "first";
export const LOADER = { module: "cold", name: "load" };
const FUNCREF = 0x70;
const EMPTY_BLOCK = 0x40;

const short = (index) => `$${index.toString(36)}`;

/** Return the index of the type without parameters and results. */
function plainType(types) {
  const found = types.findIndex((each) => !each.parameters.length && !each.results.length);
  if (found < 0) throw new Error("No function of the runtime is without parameters and results.");
  return found;
}

/** A body that loads the second file unless it is there, then calls a function of it. */
function standIn(type, typeIndex, ensure, table, slot) {
  return written((out) => {
    out.number(0).byte(OP.call).number(ensure);
    type.parameters.forEach((_, n) => out.byte(0x20).number(n));
    out.byte(OP.i32Const).signed(slot);
    out.byte(0x11).number(typeIndex).number(table).byte(END);
  });
}

/** A body that calls `load` once. */
function ensuring(load, loaded) {
  return written((out) => {
    out.number(0).byte(OP.getGlobal).number(loaded);
    out.byte(0x45).byte(0x04).byte(EMPTY_BLOCK).byte(OP.call).number(load);
    out.byte(OP.i32Const).signed(1).byte(OP.setGlobal).number(loaded).byte(END).byte(END);
  });
}

/** Gives each that is asked for a place of its own, in the order of the asking. */
class Places {
  found = new Map();

  of(index) {
    if (!this.found.has(index)) this.found.set(index, this.found.size);
    return this.found.get(index);
  }

  get list() {
    return [...this.found.keys()];
  }
}

/** Return the two modules that `module` becomes when the functions for which `isHot` holds stay. */
export function split(module, isHot) {
  const ofKind = (kind) => module.imports.filter((each) => each.kind === kind);
  const functionImports = ofKind(IMPORTED.function);
  const globalImports = ofKind(IMPORTED.global);
  const tables = imported(module, IMPORTED.table) + module.tables.length;
  const firstOwn = functionImports.length;
  const all = module.functions.map((each, n) => ({ ...each, at: firstOwn + n, hot: isHot(each) }));
  const isCold = (index) => index >= firstOwn && !all[index - firstOwn].hot;
  const called = (each) => [...instructions(each.body)].filter(({ op }) => op === OP.call);

  // Cold functions that the first file names, each with its slot in a table that both know.
  const slots = new Places();
  const note = (index) => isCold(index) && slots.of(index);
  for (const each of module.elements) each.functions.forEach(note);
  for (const each of module.exports) if (each.kind === IMPORTED.function) note(each.index);
  for (const each of all) if (each.hot) for (const { value } of called(each)) note(value);

  // The first file: one more import, then what stays, then what stands in for the others.
  const hot = all.filter((each) => each.hot);
  const inFirst = new Map(functionImports.map((_, n) => [n, n]));
  for (const [n, each] of hot.entries()) inFirst.set(each.at, firstOwn + 1 + n);
  const afterHot = firstOwn + 1 + hot.length;
  for (const [index, slot] of slots.found) inFirst.set(index, afterHot + slot);
  const ensure = afterHot + slots.found.size;
  const loaded = globalImports.length + module.globals.length;
  const plain = plainType(module.types);
  const firstAt = (index) => inFirst.get(index);
  const same = (index) => index;

  // The second file: what it imports of both kinds shows while its bodies are written.
  const cold = all.filter((each) => !each.hot);
  const imports = new Places();
  for (const each of cold) for (const { value } of called(each)) if (!isCold(value)) imports.of(value);
  const inSecond = new Map(imports.list.map((index, n) => [index, n]));
  for (const [n, each] of cold.entries()) inSecond.set(each.at, imports.list.length + n);
  const globals = new Places();
  const secondBodies = cold.map((each) =>
    reindexed(each.body, (index) => inSecond.get(index), (index) => globals.of(index)),
  );
  const shared = (index, kind, imported) =>
    index < imported.length ? imported[index] : { module: FIRST, name: `${kind}${index}` };

  const numberOfSlots = written((out) => out.byte(FUNCREF).byte(1).number(slots.list.length).number(slots.list.length));
  const first = {
    ...module,
    imports: [...module.imports, { ...LOADER, kind: IMPORTED.function, type: plain }],
    functions: [
      ...hot.map((each) => ({ type: each.type, body: reindexed(each.body, firstAt, same) })),
      ...slots.list.map((index, slot) => {
        const { type } = all[index - firstOwn];
        return { type, body: standIn(module.types[type], type, ensure, tables, slot) };
      }),
      { type: plain, body: ensuring(firstOwn, loaded) },
    ],
    tables: [...module.tables, numberOfSlots],
    globals: [...module.globals, { type: I32, mutable: true, op: OP.i32Const, value: 0 }],
    exports: [
      ...module.exports.map((each) =>
        each.kind === IMPORTED.function ? { ...each, index: firstAt(each.index) } : each,
      ),
      ...imports.list
        .filter((index) => index >= firstOwn)
        .map((index) => ({ name: short(index), kind: IMPORTED.function, index: firstAt(index) })),
      ...globals.list
        .filter((index) => index >= globalImports.length)
        .map((index) => ({ name: `global${index}`, kind: IMPORTED.global, index })),
      ...[...module.tables, numberOfSlots].map((_, n) => {
        const index = tables - module.tables.length + n;
        return { name: `table${index}`, kind: IMPORTED.table, index };
      }),
    ],
    elements: module.elements.map((each) => ({ ...each, functions: each.functions.map(firstAt) })),
  };
  const second = {
    ...module,
    custom: [],
    imports: [
      ...imports.list.map((index) =>
        index < firstOwn
          ? functionImports[index]
          : { module: FIRST, name: short(index), kind: IMPORTED.function, type: all[index - firstOwn].type },
      ),
      ...globals.list.map((index) => ({
        ...shared(index, "global", globalImports),
        kind: IMPORTED.global,
        description:
          index < globalImports.length
            ? globalImports[index].description
            : Uint8Array.of(module.globals[index - globalImports.length].type, 1),
      })),
      ...module.imports.filter(({ kind }) => ![IMPORTED.function, IMPORTED.global].includes(kind)),
      ...[...module.tables, numberOfSlots].map((description, n) => ({
        module: FIRST,
        name: `table${tables - module.tables.length + n}`,
        kind: IMPORTED.table,
        description,
      })),
    ],
    functions: cold.map((each, n) => ({ type: each.type, body: secondBodies[n] })),
    tables: [],
    globals: [],
    exports: [],
    elements: [{ table: tables, offset: { op: OP.i32Const, value: 0 }, functions: slots.list.map((index) => inSecond.get(index)) }],
    data: [],
    start: null,
  };
  return { first, second };
}
