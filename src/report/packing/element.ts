/** The script elements in which a page carries data: no browser runs them. */

export const RESULT_ELEMENT = 'springsift-result';
export const LIVE_ELEMENT = 'springsift-live';
/** What the form on a measuring sheet begins with. */
export const FORM_ELEMENT = 'springsift-form';

const END = '</script>';

/** From where to where the text of an element stands in a page; the end is -1 where it is cut off, null: there is none. */
export function elementIn(page: string, id: string): { readonly from: number; readonly end: number } | null {
  const start = `<script type="application/json" id="${id}">`;
  const at = page.indexOf(start);
  if (at < 0) return null;
  const from = at + start.length;
  return { from, end: page.indexOf(END, from) };
}
