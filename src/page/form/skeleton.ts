/** What a list's new entry, a group or another form of a field begins with: what it needs, nobody having measured it yet. */
import type { Plain } from '../../input/form/edit.ts';
import type { FormField } from '../../input/form/fields.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';

/** @param name what a name that is needed begins with */
export function skeletonOf(field: FormField, name: string): Plain {
  switch (field.kind) {
    case 'group':
      return Object.fromEntries(
        field.fields.filter(({ isNeeded }) => isNeeded).map((child) => [child.key, skeletonOf(child, name)]),
      );
    case 'list':
      return [skeletonOf(field.entry, name)];
    case 'either':
      return skeletonOf(plainest(field.options), name);
    case 'span':
      return [UNKNOWN, UNKNOWN];
    case 'choice':
      return field.words[0] ?? UNKNOWN;
    case 'yesNo':
      return false;
    case 'text':
      return name;
    default:
      return UNKNOWN;
  }
}

/** One value rather than several, something rather than nothing, what lies on the table rather than a file of it. */
export function plainest(options: readonly FormField[]): FormField {
  const order = ['value', 'swept', 'group', 'list', 'text', 'span', 'yesNo', 'choice', 'either'];
  const rank = (option: FormField) => order.indexOf(option.kind) + (isCatalogue(option) ? order.length : 0);
  const [first, ...rest] = options as readonly [FormField, ...FormField[]];
  return rest.reduce((best, next) => (rank(next) < rank(best) ? next : best), first);
}

/** Whether a form of a field names a file of springs. */
export function isCatalogue(option: FormField): boolean {
  return option.kind === 'group' && option.fields.some(({ key }) => key === 'catalogue');
}

/** The one of several forms that a value has. */
export function optionOf(options: readonly FormField[], value: unknown): FormField | null {
  if (Array.isArray(value))
    return options.find(({ kind }) => kind === 'swept' || kind === 'span' || kind === 'list') ?? null;
  if (typeof value === 'object' && value !== null) {
    const keys = Object.keys(value);
    const groups = options.filter((option) => option.kind === 'group');
    const known = (option: (typeof groups)[number]) =>
      keys.filter((key) => option.fields.some((field) => field.key === key)).length;
    const [first] = [...groups].sort((a, b) => known(b) - known(a));
    return first ?? options.find(({ kind }) => kind === 'swept') ?? null;
  }
  const word = options.find((option) => option.kind === 'choice' && option.words.includes(String(value)));
  return word ?? options.find(({ kind }) => kind === 'value' || kind === 'swept') ?? null;
}

/** What tells one of several forms from the others. */
export function optionLabel(option: FormField): string {
  if (option.kind === 'choice') return option.words.join(' or ').replaceAll('_', ' ');
  if (option.kind !== 'group') return 'one value';
  const needed = option.fields.filter(({ isNeeded, key }) => isNeeded && key !== 'name');
  return needed
    .slice(0, 3)
    .map(({ key }) => key.replaceAll('_', ' '))
    .join(', ');
}
