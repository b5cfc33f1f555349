/**
 * How the kernel cuts the product of options: heads (damper, mount, isolator, bump stop, rod end), then sleeves,
 * perches and stacks (helper, spring). index = ((head * sleeves + sleeve) * perches + perch) * stacks + stack.
 */
import { type Corner, type Site, siteAtSide } from '../domain/corner/site.ts';
import type { Perch, Sleeve } from '../domain/parts.ts';
import type { AxleOptions, Ranking } from '../domain/scenario.ts';
import { combinationCount, cornerAt } from './options.ts';
import { type StackTable, stackTable } from './stacks.ts';

export interface AxleLayout {
  readonly site: Site;
  readonly options: AxleOptions;
  readonly ranking: Ranking;
  readonly stacks: StackTable;
  readonly sleeves: readonly Sleeve[];
  readonly perches: readonly Perch[];
  readonly heads: number;
  /** The site at the load of either side; empty where one load stands for both. */
  readonly sides: readonly Site[];
  /** True when a stack costs the same on every sleeve and perch of a head, or price isn't ranked. */
  readonly onePrice: boolean;
  /** Combinations of one head. */
  readonly headSize: number;
}

export function axleLayout(site: Site, options: AxleOptions, ranking: Ranking): AxleLayout {
  const stacks = stackTable(options, site.margins);
  const headSize = options.sleeve.length * options.perch.length * stacks.count;
  return {
    site,
    options,
    ranking,
    stacks,
    sleeves: options.sleeve,
    perches: options.perch,
    heads: combinationCount(options) / headSize,
    sides: site.sides.map((side) => siteAtSide(site, side)),
    onePrice: ranking.price === null || (samePrice(options.sleeve) && samePrice(options.perch)),
    headSize,
  };
}

function samePrice(parts: readonly { readonly price: number | null }[]): boolean {
  return parts.every((part) => part.price === parts[0]?.price);
}

/** The corner of a head with the first sleeve, perch and stack; the others take their places as they are tried. */
export function headCorner(layout: AxleLayout, head: number): Corner {
  return cornerAt(layout.options, head * layout.headSize);
}

export function indexOf(layout: AxleLayout, head: number, sleeve: number, perch: number, stack: number): number {
  const { sleeves, perches, stacks } = layout;
  return ((head * sleeves.length + sleeve) * perches.length + perch) * stacks.count + stack;
}
