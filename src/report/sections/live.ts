/** The place of the bench, which the page's script fills from the numbers that the page carries. */
import { section } from '../frame/section.ts';

export const live = section({
  id: 'live',
  link: 'Bench',
  title: 'What if: the bench',
  view: ({ result }) => (result.live ? {} : null),
  prints: true,
  leaves: null,
  waits: true,
});
