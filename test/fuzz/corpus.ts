/** What the fuzzing starts from: the scenarios that come with the tool and the fixture, whole and with few options. */

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { blockYaml } from './blockYaml.ts';

/** The two files of a scenario, as bytes: a mutation may leave no valid text. */
export interface Input {
  readonly scenario: Uint8Array;
  readonly catalogue: Uint8Array;
}

export interface Seed {
  readonly name: string;
  readonly scenario: string;
  readonly catalogue: string;
  /** The scenario as plain data, aliases filled in. */
  readonly tree: unknown;
  /** Few enough combinations that every mutant which is no mistake can be swept. */
  readonly small: boolean;
}

const PLACES = ['scenarios/hill-hatch', 'scenarios/kit-two-seater', 'scenarios/loaded-estate', 'test/input/fixture'];

export const SEEDS: readonly Seed[] = PLACES.flatMap((place) => {
  const name = place.split('/').at(-1) ?? '';
  const scenario = textOf(place, 'scenario.yaml') ?? '';
  const catalogue = textOf(place, 'springs.csv') ?? 'name,free_length_mm,rate_n_per_mm,bore_mm\nA,200,50,60\n';
  const tree: unknown = parse(scenario, { merge: true });
  const few = slim(tree);
  return [
    { name, scenario, catalogue, tree, small: false },
    {
      name: `${name}, few options`,
      scenario: blockYaml(few),
      catalogue: head(catalogue),
      tree: few,
      small: true,
    },
  ];
});

export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

function textOf(place: string, file: string): string | null {
  try {
    return readFileSync(new URL(`../../${place}/${file}`, import.meta.url), 'utf8');
  } catch {
    return null;
  }
}

/** The header and some of the springs. */
function head(catalogue: string): string {
  const lines = catalogue.split('\n');
  const each = lines.length > 60 ? 4 : 2;
  return lines.filter((_, k) => k % each === 0).join('\n');
}

/** Ranges with longer steps, motion curves with half their pairs: fewer options, of which some still work. */
export function slim(value: unknown, factor = 2): unknown {
  if (Array.isArray(value)) {
    return (value.length > 6 ? value.filter((_, k) => k % 2 === 0) : value).map((item) => slim(item, factor));
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [key, key === 'step' ? longer(item, factor) : slim(item, factor)]),
  );
}

function longer(step: unknown, factor: number): string {
  return String(step).replace(/^[\d.]+/, (number) => String(factor * Number(number)));
}
