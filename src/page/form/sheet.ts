/** The sheet on paper, with what was typed in its boxes. */
import { isMapping } from '../../input/schema/issues.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';

/**
 * Boxes carry the axle and the field they are for: `data-axle`, `data-field`. What the page brought along stands there
 * already, or is to be measured anew.
 */
export function fillSheet(data: unknown, brought: unknown): void {
  for (const box of document.querySelectorAll<HTMLElement>('.entry[data-field]')) {
    const { axle = '', field = '' } = box.dataset;
    const textIn = (whole: unknown) => [...textsAt(ownerIn(whole, axle, field), field.split('.'))].join(', ');
    const now = textIn(data);
    const text = now === textIn(brought) ? '' : now;
    let filled = box.querySelector('.filled');
    if (filled === null) {
      if (text === '') continue;
      filled = document.createElement('span');
      filled.className = 'filled';
      box.prepend(filled);
    }
    if (filled.textContent !== text) filled.textContent = text;
  }
}

function ownerIn(data: unknown, axle: string, field: string): unknown {
  if (field.startsWith('car.')) return data;
  return isMapping(data) && isMapping(data.axles) ? data.axles[axle] : null;
}

/** What is written at a path, each text once; `[]` goes through a list. */
export function textsAt(data: unknown, [key, ...rest]: readonly string[]): ReadonlySet<string> {
  if (key === undefined) return new Set(textsIn(data));
  if (!isMapping(data)) return new Set();
  const isList = key.endsWith('[]');
  const child = data[isList ? key.slice(0, -2) : key];
  if (!isList) return textsAt(child, rest);
  return new Set(Array.isArray(child) ? child.flatMap((item) => [...textsAt(item, rest)]) : []);
}

function textsIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(textsIn);
  if (isMapping(value))
    return 'from' in value ? [`${textsIn(value.from)} to ${textsIn(value.to)} by ${textsIn(value.step)}`] : [];
  return value === undefined || value === null || value === UNKNOWN ? [] : [String(value)];
}
