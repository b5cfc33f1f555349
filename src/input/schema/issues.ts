/** zod's issues to complaints with the path of the value each one is about. */
import type { z } from 'zod';
import { emptyEntries, missingField, tooMany, wrongType } from '../messages/shape.ts';
import type { Complaint } from '../problems.ts';
import type { Aspect, PathKey } from '../source/nodeAt.ts';
import { complainUnknownKey, type IssueParams } from './leaves.ts';
import { descriptionAt } from './walk.ts';

export interface PathComplaint {
  readonly path: readonly PathKey[];
  readonly at: Aspect;
  readonly complaint: Complaint;
}

type Issue = z.core.$ZodIssue;

/** All complaints about `data`, which `schema` refused. */
export function complaintsOf(schema: z.ZodType, issues: readonly Issue[], data: unknown): readonly PathComplaint[] {
  return issues.flatMap((issue) => translate(schema, issue, [], data));
}

function translate(
  schema: z.ZodType,
  issue: Issue,
  above: readonly PathKey[],
  data: unknown,
): readonly PathComplaint[] {
  const path = [...above, ...issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key))];
  const value = valueAt(data, path);
  if (issue.code === 'invalid_union') {
    const branch = likeliestBranch(issue.errors);
    if (branch !== null) return branch.flatMap((inner) => translate(schema, inner, path, data));
    return [{ path, at: 'value', complaint: wrongType(value, descriptionAt(schema, path) || MAPPING) }];
  }
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message.split(' ');
    return issue.keys.map((key) => ({ path: [...path, key], at: 'key', complaint: complainUnknownKey(key, known) }));
  }
  const name = path[path.length - 1];
  if (value === undefined && typeof name === 'string') {
    const complaint = missingField(name, descriptionAt(schema, path));
    return [{ path: path.slice(0, -1), at: 'owner', complaint }];
  }
  return [{ path, ...complaintAbout(issue, value) }];
}

function complaintAbout(issue: Issue, value: unknown): Pick<PathComplaint, 'at' | 'complaint'> {
  if (issue.code === 'custom' && issue.params !== undefined) {
    // Every custom issue of the schema is made by `complain`.
    const { complaint, atKey } = issue.params as unknown as IssueParams;
    return { at: atKey === true ? 'key' : 'inside', complaint };
  }
  return { at: 'value', complaint: builtInComplaint(issue, value) };
}

/** What is wanted where alternatives differ only in their fields. */
const MAPPING = 'a mapping of fields';

function builtInComplaint(issue: Issue, value: unknown): Complaint {
  const count = Array.isArray(value) ? value.length : 0;
  if (issue.code === 'too_small') return emptyEntries();
  if (issue.code === 'too_big') return tooMany(count, Number(issue.maximum));
  const expected = issue.code === 'invalid_type' ? issue.expected : '';
  const words: Record<string, string> = {
    object: MAPPING,
    array: 'a list of entries',
    boolean: 'true or false',
  };
  return wrongType(value, words[expected] ?? issue.message);
}

/** The alternative the user most likely meant: of those whose kind of value fits, the one with the fewest issues. */
function likeliestBranch(branches: readonly (readonly Issue[])[]): readonly Issue[] | null {
  const misfit = (issue: Issue) =>
    issue.path.length === 0 &&
    (issue.code === 'invalid_type' || (issue.code === 'custom' && issue.params?.misfit === true));
  const fitting = branches.filter((issues) => !issues.some(misfit));
  return fitting.reduce<readonly Issue[] | null>(
    (best, next) => (best === null || next.length < best.length ? next : best),
    null,
  );
}

export function valueAt(data: unknown, path: readonly PathKey[]): unknown {
  return path.reduce<unknown>((value, key) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    return (value as Record<PathKey, unknown>)[key];
  }, data);
}
