/** A heap: what comes first by an order is taken first, and what is left may grow meanwhile. */
export class Heap<T> {
  readonly #items: T[] = [];
  readonly #compare: (one: T, other: T) => number;

  /** @param compare negative when the one comes before the other */
  constructor(compare: (one: T, other: T) => number) {
    this.#compare = compare;
  }

  push(item: T): void {
    const items = this.#items;
    let at = items.length;
    for (let above = (at - 1) >> 1; at > 0 && this.#compare(item, items[above] as T) < 0; above = (at - 1) >> 1) {
      items[at] = items[above] as T;
      at = above;
    }
    items[at] = item;
  }

  /** Takes the first; null where nothing is left. */
  pop(): T | null {
    const items = this.#items;
    const [first] = items;
    const last = items.pop();
    if (first === undefined || last === undefined) return null;
    if (items.length > 0) this.#sink(last);
    return first;
  }

  #sink(item: T): void {
    const items = this.#items;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below + 1 < items.length && this.#compare(items[below + 1] as T, items[below] as T) < 0) below++;
      if (below >= items.length || this.#compare(item, items[below] as T) <= 0) break;
      items[at] = items[below] as T;
      at = below;
    }
    items[at] = item;
  }
}
