/** A mutant as plain data, so that a failing one can be shrunk and named: which seed, and which changes to what. */
import fc from 'fast-check';
import { blockYaml } from './blockYaml.ts';
import { bytesOf, type Input, SEEDS } from './corpus.ts';
import { changeCsv } from './mutateCsv.ts';
import { changeBytes, changeText } from './mutateText.ts';
import { type Change, changeTree, pick } from './mutateTree.ts';

export interface Mutant {
  /** Position among the seeds. */
  readonly seed: number;
  readonly tree: readonly Change[];
  readonly text: readonly Change[];
  readonly csv: readonly Change[];
  readonly bytes: readonly Change[];
}

const change: fc.Arbitrary<Change> = fc.record({
  kind: fc.nat(1_000_000),
  at: fc.nat(1_000_000),
  with: fc.nat(1_000_000),
});
const upTo = (maxLength: number) => fc.array(change, { maxLength });
const none = fc.constant<readonly Change[]>([]);
const seed = fc.nat(1_000_000);

/** Mostly changes of values, which get furthest; then text, catalogues, and now and then bare bytes. */
export const mutants: fc.Arbitrary<Mutant> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ seed, tree: upTo(3), text: none, csv: none, bytes: none }) },
  { weight: 3, arbitrary: fc.record({ seed, tree: none, text: upTo(3), csv: none, bytes: none }) },
  { weight: 2, arbitrary: fc.record({ seed, tree: none, text: none, csv: upTo(3), bytes: none }) },
  { weight: 1, arbitrary: fc.record({ seed, tree: upTo(2), text: upTo(1), csv: upTo(2), bytes: upTo(1) }) },
);

export function inputOf({ seed: number, tree, text, csv, bytes }: Mutant): Input {
  const { scenario, catalogue, tree: plain } = pick(SEEDS, number);
  const written = tree.length > 0 ? blockYaml(changedTree(plain, tree)) : scenario;
  const changedText = text.reduce(changeText, written);
  const raw = bytes.reduce(changeBytes, bytesOf(changedText));
  return { scenario: raw, catalogue: bytesOf(csv.reduce(changeCsv, catalogue)) };
}

function changedTree(plain: unknown, changes: readonly Change[]): unknown {
  const copy: unknown = structuredClone(plain);
  for (const one of changes) changeTree(copy, one);
  return copy;
}
