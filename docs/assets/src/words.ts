/** The words of a text, reduced as calc.reading.words and calc.reading.finding reduce them. */

/** For each word of a text, what it is and what it stands for. */
export type Marks = Set<string>[];

const SHORTEST_SLIP = 5;
const LONG = 9;
const TOKEN = /\d[\d.,/x-]*|[\p{L}]+(?:['’][\p{L}]+)*|\S/gu;
const SIZE = /^(?:\d{2}(?:\.\d+)?x\d|\d{3}\/\d{2}|\d{1,2}\.\d{1,2}-\d)/;
const POWER = new Set(["hp", "kw", "horse", "horsepower", "ptohp"]);

export function stem(word: string): string {
  let found = word;
  if (found.length > 3 && /s$/.test(found) && !/(?:ss|us|is)$/.test(found)) {
    found = found.slice(0, /(?:ches|shes|sses|xes)$/.test(found) ? -2 : -1);
  }
  const ending = /(?:ing|ed)$/.exec(found)?.[0] ?? "";
  if (ending && found.length - ending.length >= 3) {
    const bare = found.slice(0, -ending.length);
    const twice = bare.at(-1) === bare.at(-2) && !"lsz".includes(bare.at(-1)!);
    return twice ? bare.slice(0, -1) : bare;
  }
  return found.length > 4 && found.endsWith("e") ? found.slice(0, -1) : found;
}

/** How many letters to change, add, drop or swap; more than `most` gives `most` + 1. */
export function slips(one: string, other: string, most: number): number {
  if (Math.abs(one.length - other.length) > most) return most + 1;
  let last: number[] = [];
  let before: number[] = [];
  let row = Array.from({ length: other.length + 1 }, (_, place) => place);
  for (let i = 1; i <= one.length; i += 1) {
    [last, before, row] = [before, row, [i]];
    for (let j = 1; j <= other.length; j += 1) {
      const same = one[i - 1] === other[j - 1] ? 0 : 1;
      let cost = Math.min(before[j]! + 1, row[j - 1]! + 1, before[j - 1]! + same);
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
        cost = Math.min(cost, last[j - 2]! + 1);
      }
      row.push(cost);
    }
    if (Math.min(...row) > most) return most + 1;
  }
  return row.at(-1)!;
}

export class Words {
  private readonly phrases: Map<string, string[]>;
  private readonly common: Set<string>;
  private readonly known = new Map<string, string[]>();
  private readonly longest: number;

  /** `phrases` maps the stems of a phrase to what it stands for; `common` are words that are right. */
  constructor(phrases: Record<string, string>, common: string) {
    this.phrases = new Map(Object.entries(phrases).map(([words, means]) => [words, means.split(" ")]));
    this.common = new Set(common.split(" "));
    this.longest = Math.max(...[...this.phrases.keys()].map((words) => words.split(" ").length));
    for (const word of new Set([...this.phrases.keys()].flatMap((words) => words.split(" ")))) {
      if (word.length < SHORTEST_SLIP - 1 || !/^\p{L}+$/u.test(word)) continue;
      this.known.set(word[0]!, [...(this.known.get(word[0]!) ?? []), word]);
    }
  }

  marksOf(text: string): Marks {
    const stems = [...text.toLowerCase().matchAll(TOKEN)].map(([word]) => this.mended(stem(word.replace(/['’]/g, ""))));
    const marks: Marks = stems.map((word) => new Set([word]));
    for (let place = 0; place < stems.length; ) place += this.phraseAt(stems, place, marks);
    stems.forEach((word, place) => {
      if (SIZE.test(word)) marks[place]!.add("<size>");
      if (!POWER.has(word)) return;
      const whose = stems.slice(Math.max(0, place - 2), place);
      const pto = whose.includes("pto") || word === "ptohp" || stems.slice(place + 1, place + 4).includes("pto");
      for (const mark of ["<power>", pto ? "<pto_power>" : "<engine_power>"]) marks[place]!.add(mark);
    });
    return marks;
  }

  private phraseAt(stems: string[], place: number, marks: Marks): number {
    for (let length = Math.min(this.longest, stems.length - place); length > 0; length -= 1) {
      const means = this.phrases.get(stems.slice(place, place + length).join(" "));
      if (!means) continue;
      for (let i = place; i < place + length; i += 1) for (const word of means) if (word) marks[i]!.add(word);
      return length;
    }
    return 1;
  }

  private mended(word: string): string {
    if (word.length < SHORTEST_SLIP || this.common.has(word)) return word;
    const most = word.length >= LONG ? 2 : 1;
    let best = word;
    let distance = most + 1;
    for (const known of this.known.get(word[0]!) ?? []) {
      const apart = slips(word, known, most);
      if (apart < distance || (apart === distance && apart <= most && known < best)) {
        best = known;
        distance = apart;
      }
    }
    return best;
  }
}
