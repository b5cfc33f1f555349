/**
 * Pairs of changes that end at a wall: a margin which nothing within their limits makes up. Where the stop can't meet
 * the sleeve, a margin that neither sleeve nor perch decides is the same, to the last bit, for all combinations of one
 * head and stack: so what one of them met stands in the way of all.
 */
import type { Corner, Site } from '../corner/site.ts';
import { FAMILIES } from '../scenario.ts';
import { stopCanMeetSleeve } from './changes.ts';
import { isOfSleeveMargin } from './margins.ts';
import { type Box, mostIn } from './polygon.ts';
import type { Pair, StraightMargin } from './straight.ts';

export class Walls {
  readonly #site: Site;
  readonly #met: { readonly corner: Corner; readonly pair: Pair }[] = [];

  constructor(site: Site) {
    this.#site = site;
  }

  /** Whether another combination with this head and stack met a wall on the same pair. */
  stand(corner: Corner, pair: Pair): boolean {
    const met = this.#met.some((wall) => wall.pair === pair && sameHead(wall.corner, corner));
    return met && !stopCanMeetSleeve(this.#site, corner);
  }

  /** Notes for the other combinations of the head what its straight margins can't make up within the box. */
  note(corner: Corner, pair: Pair, margins: readonly StraightMargin[], box: Box): void {
    const isWall = ({ name, side }: StraightMargin) => !isOfSleeveMargin(name) && mostIn(side, box) < 0;
    if (!stopCanMeetSleeve(this.#site, corner) && margins.some(isWall)) this.#met.push({ corner, pair });
  }
}

const HEAD = FAMILIES.filter((family) => family !== 'sleeve' && family !== 'perch');

function sameHead(one: Corner, other: Corner): boolean {
  return HEAD.every((family) => one[family] === other[family]);
}
