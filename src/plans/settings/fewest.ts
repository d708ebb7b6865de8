/**
 * The fewest settings over a number of choices, exactly: each choice takes one of its options, an option asks for some settings, and a
 * setting that several ask for is made once. Branch and bound, with a bound that is proved even where the search is given up.
 */

/** `settings`: names of what an option asks for; `penalty`: what it costs beside, compared in order where the number of settings is equal. */
export type Option = { settings: readonly string[]; penalty: readonly [number, number] };
export type Choice = { options: readonly Option[] };

/** `chosen`: index of the option of each choice. No choice of options makes fewer settings than `least`. */
export type Fewest = { chosen: number[]; count: number; least: number };

/** Nodes searched at most, over all choices together: not a time, so that the same job gives the same settings on any machine. */
export const BUDGET = 200_000;

export function fewestSettings(choices: readonly Choice[], budget = BUDGET): Fewest {
  const chosen = choices.map(() => 0);
  // What has no alternative is made in any case.
  const sure = new Set(choices.flatMap(({ options }) => (options.length === 1 ? options[0]!.settings : [])));
  let left = budget;
  let count = sure.size;
  let least = sure.size;
  for (const members of independent(choices, sure)) {
    const search = new Search(
      members.map((i) => choices[i]!.options),
      sure,
      left,
    );
    const proved = search.run();
    left = search.left;
    members.forEach((i, j) => {
      chosen[i] = search.best[j]!;
    });
    count += search.bestCost[0];
    least += proved;
  }
  return { chosen, count, least };
}

/** Choices that could share a setting, directly or through others, belong together; groups of them have nothing to do with each other. */
function independent(choices: readonly Choice[], sure: ReadonlySet<string>): number[][] {
  const open = choices.flatMap(({ options }, i) => (options.length > 1 ? [i] : []));
  const asked = (i: number): string[] =>
    choices[i]!.options.flatMap(({ settings }) => settings.filter((name) => !sure.has(name)));
  const groups: { members: number[]; names: Set<string> }[] = [];
  for (const i of open) {
    const names = new Set(asked(i));
    const met = groups.filter((group) => [...names].some((name) => group.names.has(name)));
    const joined = {
      members: [...met.flatMap(({ members }) => members), i].sort((a, b) => a - b),
      names: new Set([...met.flatMap((group) => [...group.names]), ...names]),
    };
    for (const group of met) groups.splice(groups.indexOf(group), 1);
    groups.push(joined);
  }
  return groups.map(({ members }) => members);
}

type Cost = readonly [number, number, number];

const isLess = (a: Cost, b: Cost): boolean => {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at >= 0 && a[at]! < b[at]!;
};

/** An option with its settings by number, those that are made in any case left out. */
type Numbered = { asks: readonly number[]; penalty: readonly [number, number] };

class Search {
  best: number[] = [];
  bestCost: Cost = [Number.POSITIVE_INFINITY, 0, 0];
  private readonly choices: readonly (readonly Numbered[])[];
  private readonly isMade: Uint8Array; // by number
  private readonly users: Int32Array; // how many choices ahead could ask for it
  private readonly seen: Int32Array; // the last choice that was counted among them
  private readonly taken: number[] = [];

  constructor(
    choices: readonly (readonly Option[])[],
    sure: ReadonlySet<string>,
    public left: number,
  ) {
    const numbers = new Map<string, number>();
    const numberOf = (name: string): number => {
      const known = numbers.get(name) ?? numbers.size;
      numbers.set(name, known);
      return known;
    };
    this.choices = choices.map((options) =>
      options.map(({ settings, penalty }) => ({
        asks: [...new Set(settings.filter((name) => !sure.has(name)))].map(numberOf),
        penalty,
      })),
    );
    this.isMade = new Uint8Array(numbers.size);
    this.users = new Int32Array(numbers.size);
    this.seen = new Int32Array(numbers.size);
  }

  /** Returns the number of settings, beyond those that are sure, that is proved to be needed. */
  run(): number {
    return this.from(0, [0, 0, 0]);
  }

  /** The least that the rest of the choices can come to from here, as far as it is proved; never more than the best found. */
  private from(next: number, spent: Cost): number {
    const bound = Math.ceil(spent[0] + this.share(next) - 1e-9);
    if (!isLess([bound, spent[1], spent[2]], this.bestCost)) return Math.min(bound, this.bestCost[0]);
    if (next === this.choices.length) {
      this.bestCost = spent;
      this.best = [...this.taken];
      return spent[0];
    }
    // The first way down is always gone to its end, so that there is an answer whatever the budget.
    if (this.left <= 0 && this.best.length > 0) return bound;
    this.left -= 1;
    let proved = Number.POSITIVE_INFINITY;
    this.choices[next]!.forEach(({ asks, penalty: [high, router] }, i) => {
      const fresh = asks.filter((n) => this.isMade[n] === 0);
      for (const n of fresh) this.isMade[n] = 1;
      this.taken.push(i);
      const cost: Cost = [spent[0] + fresh.length, spent[1] + high, spent[2] + router];
      proved = Math.min(proved, this.from(next + 1, cost));
      this.taken.pop();
      for (const n of fresh) this.isMade[n] = 0;
    });
    return Math.min(proved, this.bestCost[0]);
  }

  /**
   * What the choices from `next` on must add at the least: a setting not yet made is shared between all of them that could ask for it,
   * so each choice pays at least the smallest sum of such shares. Asked at every node, so in plain loops.
   */
  private share(next: number): number {
    const { choices, isMade, users, seen } = this;
    users.fill(0);
    seen.fill(-1);
    for (let i = next; i < choices.length; i++) {
      for (const { asks } of choices[i]!) {
        for (const n of asks) {
          if (isMade[n] === 1 || seen[n] === i) continue;
          seen[n] = i;
          users[n]! += 1;
        }
      }
    }
    let sum = 0;
    for (let i = next; i < choices.length; i++) {
      let least = Number.POSITIVE_INFINITY;
      for (const { asks } of choices[i]!) {
        let own = 0;
        for (const n of asks) if (isMade[n] === 0) own += 1 / users[n]!;
        if (own < least) least = own;
      }
      sum += least;
    }
    return sum;
  }
}
