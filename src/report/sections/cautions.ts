/** Where the work can hurt someone. */
import { section } from '../frame/section.ts';
import { cautionViews } from '../text/cautions.ts';

export const cautions = section({
  id: 'cautions',
  link: 'Cautions',
  title: 'Cautions',
  view: () => ({ cautions: cautionViews() }),
  prints: true,
  leaves: null,
});
