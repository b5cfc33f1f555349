import { expect, test } from 'vitest';
import { type FileCoverage, fold } from './fold.ts';

const at = (line: number, column: number) => ({ start: { line, column } });

/** Statements and functions at `[line, column]`, all of them run `count` times. */
function seen(places: readonly (readonly [number, number])[], count: number): FileCoverage {
  const keyed = <T>(make: (place: readonly [number, number]) => T) =>
    Object.fromEntries(places.map((place, id) => [String(id), make(place)]));
  return {
    statementMap: keyed(([line, column]) => at(line, column)),
    fnMap: keyed(([line, column]) => ({ decl: at(line, column) })),
    branchMap: {},
    s: keyed(() => count),
    f: keyed(() => count),
    b: {},
  };
}

function branching(type: string, counts: number[]): FileCoverage {
  const nothing = { statementMap: {}, fnMap: {}, s: {}, f: {} };
  return { ...nothing, branchMap: { '0': { loc: at(3, 2), type } }, b: { '0': counts } };
}

test('what two runs saw of a line is added from left to right, wherever on it each compiler begins it', () => {
  const file = seen(
    [
      [1, 0],
      [1, 20],
      [2, 4],
    ],
    1,
  );
  fold(
    file,
    seen(
      [
        [2, 5],
        [1, 24],
        [1, 1],
      ],
      3,
    ),
  );
  expect(file).toMatchObject({ s: { '0': 4, '1': 4, '2': 4 }, f: { '0': 4, '1': 4, '2': 4 } });
});

test('a line that two compilers do not see alike keeps what it had: rather not run than run', () => {
  const file = seen(
    [
      [1, 0],
      [1, 20],
      [2, 0],
    ],
    0,
  );
  fold(
    file,
    seen(
      [
        [1, 0],
        [2, 0],
      ],
      5,
    ),
  );
  expect(file.s).toEqual({ '0': 0, '1': 0, '2': 5 });
});

test('branches are added arm by arm, and only to a branch of the same kind with as many arms', () => {
  const file = branching('if', [1, 0]);
  fold(file, branching('if', [2, 7]));
  expect(file.b).toEqual({ '0': [3, 7] });
  fold(file, branching('cond-expr', [2, 7]));
  fold(file, branching('if', [2, 7, 1]));
  expect(file.b).toEqual({ '0': [3, 7] });
});
