/** Which combinations of the shortlist are shown: those with the words looked for, and those tight or not. */
import type { Care } from './state.ts';

export function showOnly(find: string, care: Care): void {
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  for (const list of document.querySelectorAll<HTMLTableElement>('table[data-sort="shortlist"]')) {
    const bodies = [...list.tBodies];
    for (const body of bodies) body.hidden = !(has(body, words) && isWanted(body, care));
    const left = bodies.filter((body) => !body.hidden).length;
    const place = list.closest('.setup')?.querySelector('.found');
    if (place) place.textContent = left < bodies.length ? `Shown: ${left} of ${bodies.length}${why(words, care)}.` : '';
  }
}

function has(body: HTMLElement, words: readonly string[]): boolean {
  const text = (body.textContent ?? '').toLowerCase();
  return words.every((word) => text.includes(word));
}

function isWanted(body: HTMLElement, care: Care): boolean {
  return care === 'all' || (body.dataset.tight === 'yes') === (care === 'tight');
}

function why(words: readonly string[], care: Care): string {
  const reasons = [
    ...(words.length > 0 ? [`with \u201c${words.join(' ')}\u201d`] : []),
    ...(care === 'all' ? [] : [care]),
  ];
  return `, ${reasons.join(', ')}`;
}
