// A module without what nothing reaches.

import { IMPORTED, OP, imported } from "./module.mjs";
import { instructions, reindexed } from "./body.mjs";

/** Return where each of these indices stands once all others are gone. */
function places(indices) {
  const found = new Map([...indices].sort((a, b) => a - b).map((index, place) => [index, place]));
  return (index) => found.get(index);
}

/** Return `module` with what its exports, its table and its start reach. */
export function reduced(module) {
  const firstOwn = imported(module, IMPORTED.function);
  const firstGlobal = imported(module, IMPORTED.global);
  const waiting = module.elements.flatMap((each) => each.functions);
  const globals = new Set();
  for (const { kind, index } of module.exports) {
    if (kind === IMPORTED.function) waiting.push(index);
    if (kind === IMPORTED.global) globals.add(index);
  }
  if (module.start !== null) waiting.push(module.start);
  const reached = new Set();
  while (waiting.length) {
    const index = waiting.pop();
    if (reached.has(index)) continue;
    reached.add(index);
    if (index < firstOwn) continue;
    for (const { op, value } of instructions(module.functions[index - firstOwn].body)) {
      if (op === OP.call) waiting.push(value);
      if (op === OP.getGlobal || op === OP.setGlobal) globals.add(value);
    }
  }
  const functionAt = places(reached);
  const globalAt = places(globals);
  const at = { [IMPORTED.function]: functionAt, [IMPORTED.global]: globalAt };
  const seen = { [IMPORTED.function]: 0, [IMPORTED.global]: 0 };
  return {
    ...module,
    imports: module.imports.filter(({ kind }) => {
      const kept = { [IMPORTED.function]: reached, [IMPORTED.global]: globals }[kind];
      return !kept || kept.has(seen[kind]++);
    }),
    functions: module.functions
      .filter((_, n) => reached.has(firstOwn + n))
      .map((each) => ({ ...each, body: reindexed(each.body, functionAt, globalAt) })),
    globals: module.globals.filter((_, n) => globals.has(firstGlobal + n)),
    exports: module.exports.map((each) => ({ ...each, index: (at[each.kind] ?? ((n) => n))(each.index) })),
    elements: module.elements.map((each) => ({ ...each, functions: each.functions.map(functionAt) })),
    start: module.start === null ? null : functionAt(module.start),
  };
}
