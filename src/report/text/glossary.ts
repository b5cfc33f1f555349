/** The trade's words that a newcomer stumbles over: the one list of page, sheet and help. */

import { CONTACT } from '../../model/corner/contacts.ts';

export interface Word {
  readonly word: string;
  readonly meaning: string;
  /** How it is measured, or null for what is no measure. */
  readonly measured: string | null;
}

const word = (name: string, meaning: string, measured: string | null = null): Word => ({
  word: name,
  meaning,
  measured,
});

/** Those of the picture, from its top to its foot: a number stands beside each. */
const IN_PICTURE = {
  'top mount': ['holds rod and spring to the car', 'raise and flange from the tower plane'],
  'rod shoulder': ['the ledge on the damper’s rod that the mount’s washers rest on', 'all damper lengths end here'],
  'tower plane': ['the car’s face that the mount is bolted to', 'a straight edge laid on it'],
  'upper seat': [
    'the face that the spring’s upper end rests on, under the isolator',
    'tower plane to flange, and the isolator',
  ],
  'bump stop': ['foam or rubber on the rod that is met before any metal', 'its length as fitted, and squeezed closed'],
  spring: ['carries the car', 'free length upright; solid height with all coils touching'],
  body: ['the damper’s tube', 'lower eye to its top'],
  sleeve: ['the threaded tube that slides over the body', 'its length, and the trim sawn off its top'],
  perch: ['the collar on the sleeve’s thread; turned up it raises the car', 'lower eye to its seat'],
  'lock ring': ['the ring under the perch that holds it', 'its height'],
  ledge: ['what the sleeve stands on: a ring or groove of the body', 'lower eye to it'],
  'lower eye': ['the damper’s lower joint, from whose middle all heights count', null],
} as const;
export type PicturedName = keyof typeof IN_PICTURE;
export const PICTURED_NAMES = Object.keys(IN_PICTURE) as readonly PicturedName[];
export const PICTURED: readonly Word[] = PICTURED_NAMES.map((name) => {
  const [meaning, measured] = IN_PICTURE[name];
  return word(name, meaning, measured);
});

/** Those that no picture shows. */
export const SPOKEN: readonly Word[] = [
  word('bump, droop', 'the wheel going up, and down, from where the car stands', 'hub centre to arch lip'),
  word('full bump', 'the wheel as high as its bump stop lets it'),
  word(CONTACT.coil_bind.label, 'all coils touch: the spring is as hard as iron, and something breaks'),
  word('ride height', 'hub centre to arch lip, so that tyres do not matter', 'a rule at the wheel'),
  word('rate', 'force for each millimetre the spring gives', 'in a press, the load at two lengths'),
  word(
    'motion ratio',
    'how far the damper moves for each millimetre of the wheel',
    'both read together, the spring out',
  ),
  word('sprung, unsprung', 'what the spring carries; and what moves with the wheel', 'scales'),
  word('body frequency', 'how often in a second the car would bob on its springs: low is soft'),
  word('helper spring', 'a weak second spring that keeps the main one seated at droop', 'as a spring'),
  word('packer', 'a spacer above the bump stop, so that it is met earlier', 'its height'),
  word('margin', 'what must be left between two parts at full bump'),
];

export const WORDS: readonly Word[] = [...PICTURED, ...SPOKEN];

/** For a page: the numbers of the picture, then the rest. */
export function glossaryViews() {
  return {
    pictured: PICTURED.map((one, k) => ({ ...one, number: k + 1 })),
    spoken: SPOKEN,
  };
}
