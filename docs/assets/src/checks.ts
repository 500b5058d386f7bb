/** The page of published checks: shows the rows of one calculator, or of one source. */

/** Bring the lists above the rows to life, and open with what the address asks for. */
export function filterChecks(root: ParentNode): void {
  const place = root.querySelector<HTMLElement>(".ys-published");
  if (!place) return;
  const rows = [...place.querySelectorAll<HTMLTableRowElement>("tbody tr")];
  const lists = [...place.querySelectorAll<HTMLSelectElement>("select")];
  const said = place.querySelector<HTMLElement>(".ys-published-shown")!;
  const show = (): void => {
    let shown = 0;
    for (const row of rows) {
      const fits = lists.every(
        ({ name, value }) => !value || (row.dataset[name] ?? "").split(" ").includes(value),
      );
      row.hidden = !fits;
      if (fits) shown += 1;
    }
    said.textContent = `${shown} of ${rows.length} shown.`;
  };
  const asked = new URLSearchParams(location.hash.slice(1));
  for (const list of lists) {
    const value = asked.get(list.name) ?? "";
    if ([...list.options].some((option) => option.value === value)) list.value = value;
    list.addEventListener("change", show);
    list.closest<HTMLElement>(".ys-published-by")!.hidden = false;
  }
  show();
}
