/** The trade's words in a picture, for somebody who meets them for the first time. */
import { glossaryDrawing } from '../drawing/glossary.ts';
import { section } from '../frame/section.ts';
import { glossaryViews } from '../text/glossary.ts';

export const words = section({
  id: 'words',
  link: 'Words',
  title: 'The words',
  view: () => ({ picture: glossaryDrawing(), words: glossaryViews() }),
  prints: false,
  leaves: 'the words',
});
