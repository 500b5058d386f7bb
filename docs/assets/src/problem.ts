/** What was thrown, in words. */

/** A sentence or a name for whatever was thrown: scripts may throw anything. */
export function wordsOf(problem: unknown): string {
  if (typeof problem === "string") return problem;
  // An Error, a DOMException, or what the runtime throws in their place.
  const { name, message } = (problem ?? {}) as { name?: unknown; message?: unknown };
  for (const said of [message, name]) if (typeof said === "string" && said) return said;
  return "no reason was given";
}
