/** A plan names setups that exist, each once, and at least two are there to plan for. */
import { repeatedInPlan, tooFewSetups, unknownSetup } from '../messages/rule.ts';
import { nearestWord } from '../nearest.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';

export function planChecks(data: unknown): readonly PathComplaint[] {
  const plan = valueAt(data, ['plan']);
  if (typeof plan !== 'object' || plan === null) return [];
  const names = namesOf(data);
  const tooFew = names.length < 2 && names.length === listAt(data, ['setups']).length;
  return [
    ...(tooFew ? [{ path: ['plan'], at: 'key' as const, complaint: tooFewSetups(names.length) }] : []),
    ...unknownSetups(data, names),
    ...['setups', 'swapped'].flatMap((list) => repeats(data, ['plan', list])),
  ];
}

function unknownSetups(data: unknown, names: readonly string[]): readonly PathComplaint[] {
  // Where a setup's own name is wrong, the plan may mean that one.
  if (names.length < listAt(data, ['setups']).length) return [];
  return listAt(data, ['plan', 'setups']).flatMap((name, i): readonly PathComplaint[] => {
    if (typeof name !== 'string' || names.includes(name)) return [];
    return [
      { path: ['plan', 'setups', i], at: 'value', complaint: unknownSetup(name, nearestWord(name, names), names) },
    ];
  });
}

function repeats(data: unknown, path: readonly PathKey[]): readonly PathComplaint[] {
  const list = listAt(data, path);
  return list.flatMap((name, i): readonly PathComplaint[] => {
    if (typeof name !== 'string' || list.indexOf(name) === i) return [];
    return [{ path: [...path, i], at: 'value', complaint: repeatedInPlan(name) }];
  });
}

function namesOf(data: unknown): readonly string[] {
  return listAt(data, ['setups']).flatMap((setup) => {
    const name = valueAt(setup, ['name']);
    return typeof name === 'string' ? [name] : [];
  });
}

function listAt(data: unknown, path: readonly PathKey[]): readonly unknown[] {
  const value = valueAt(data, path);
  return Array.isArray(value) ? value : [];
}
