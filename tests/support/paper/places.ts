/**
 * The places along one axis of a part, and the figures between them. Each figure must say something new: a place that no
 * chain of figures reaches is missing one, a figure between two places that are already tied is one too many, and a figure
 * in brackets must agree with the others.
 */

export type Tie = { from: number; to: number; value: number; check: boolean; what: string };

/** Places closer than this on paper are one line to the eye. */
export const ONE_LINE = 2e-3;

export class Places {
  readonly #at: number[] = [];
  readonly #root: number[] = [];
  readonly #offset: number[] = []; // from its root, in the page's unit
  readonly #owners: Set<string>[] = [];
  readonly #again: number[] = [];
  readonly #checks: Tie[] = [];
  readonly #repeats: Tie[] = [];

  /** `within`: how far two figures for one length may differ as printed. */
  constructor(
    readonly name: string,
    readonly within: number,
  ) {}

  #index(at: number): number {
    const known = this.#at.findIndex((one) => Math.abs(one - at) < ONE_LINE);
    if (known !== -1) return known;
    this.#at.push(at);
    this.#root.push(this.#at.length - 1);
    this.#offset.push(0);
    this.#owners.push(new Set());
    this.#again.push(0);
    return this.#at.length - 1;
  }

  #find(i: number): { root: number; offset: number } {
    let [root, offset] = [i, 0];
    while (this.#root[root] !== root) {
      offset += this.#offset[root]!;
      root = this.#root[root]!;
    }
    return { root, offset };
  }

  /** A place that must come to be known. `owner`: what has an edge there; one line may be the edge of several, each with its own figure. */
  mark(at: number, owner?: string): void {
    const i = this.#index(at);
    if (owner !== undefined) this.#owners[i]!.add(owner);
  }

  /** Whether a place that is told once more has one more edge to be told for. */
  #isOwned(at: number): boolean {
    const i = this.#index(at);
    if (this.#owners[i]!.size < 2 + this.#again[i]!) return false;
    this.#again[i]! += 1;
    return true;
  }

  tie(one: Tie): void {
    if (one.check) {
      this.#checks.push(one);
      return;
    }
    const [a, b] = [this.#find(this.#index(one.from)), this.#find(this.#index(one.to))];
    if (a.root === b.root) {
      this.#repeats.push(one);
      return;
    }
    this.#root[b.root] = a.root;
    this.#offset[b.root] = a.offset + one.value - b.offset;
  }

  /** From the part's low end; null where no figure leads there. */
  valueAt(at: number): number | null {
    const [zero, one] = [this.#find(this.#index(0)), this.#find(this.#index(at))];
    return zero.root === one.root ? one.offset - zero.offset : null;
  }

  /** What is missing, told twice or at odds. */
  finish(): string[] {
    const missing = this.#at
      .filter((at) => this.valueAt(at) === null)
      .map((at) => `${this.name}: no figure for the line ${told(at)} on paper`);
    const odd = this.#checks.flatMap(({ from, to, value, what }) => {
      const [a, b] = [this.valueAt(from), this.valueAt(to)];
      if (a === null || b === null) return [`${this.name}: nothing to check ${what} (${told(value)}) by`];
      return Math.abs(b - a - value) <= this.within
        ? []
        : [`${this.name}: ${what} (${told(value)}) is not ${told(b - a)}`];
    });
    const repeated = this.#repeats.flatMap(({ from, to, value, what }) => {
      const found = this.valueAt(to)! - this.valueAt(from)!;
      if (Math.abs(found - value) > this.within)
        return [`${this.name}: ${what} ${told(value)} disagrees with ${told(found)}`];
      return this.#isOwned(to) || this.#isOwned(from) ? [] : [`${this.name}: ${what} ${told(value)} is told twice`];
    });
    return [...repeated, ...missing, ...odd];
  }
}

const told = (value: number): string => String(Math.round(value * 1e4) / 1e4);
