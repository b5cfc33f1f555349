import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Combination } from '../../result/result.ts';
import { PAGE, withUnits } from './numbers.ts';
import { wordOf } from './parts.ts';

/** Where the work can hurt someone: the one list that the report, the audit and the build sheet read, and README.md holds. */
export interface Caution {
  /** In bold; opens the sentence that `text` ends. */
  readonly lead: string;
  readonly text: string;
  /** Few words for the build sheet; null where its own steps say it. */
  readonly sheet: string | null;
}

// biome-ignore format: one row a caution
export const CAUTIONS: readonly Caution[] = [
  { lead: 'A compressed spring stores enough energy to maim or kill.', text: 'Use a compressor made for the spring’s diameter, in good order and hooked squarely. Keep out of the spring’s line. Never undo a top nut while the spring pushes on it.', sheet: 'A squeezed spring can kill. Fitting compressor, stay out of its line, never undo a top nut under load.' },
  { lead: 'A car on a jack is not held.', text: 'Axle stands on firm, level ground, wheels chocked; no part of you under a car that only a jack holds.', sheet: 'Car on stands, never on a jack alone.' },
  { lead: 'Torque every fastener', text: 'to the vehicle maker’s figure, with no tool that hammers on the damper’s rod. New self-locking nuts and stretch bolts each time. Tighten rubber bushes at ride height, not hanging.', sheet: null },
  { lead: 'Brakes and steering are close by.', text: 'No caliper hangs on its hose; what was undone is checked by someone who answers for it. Pump the brake pedal firm first.', sheet: 'Check brakes and steering again.' },
  { lead: 'Go through the whole travel by hand', text: ', spring out, full droop to full bump, lock to lock: hoses, sensor leads, steering joints, driveshafts, tyre against arch, strut and perch. This page knows of them only its numbers.', sheet: null },
  { lead: 'Measure your own parts.', text: 'An estimate was measured by nobody. Never drive on a clearance you have not checked.', sheet: null },
  { lead: 'A cut sleeve or stop can’t be uncut', text: ', nor a groove filled: whether a body may be grooved or welded at all is for its maker or a specialist to say.', sheet: null },
  { lead: 'Never groove or weld a single-tube body.', text: 'The piston runs on the inside of that wall, gas pressure behind it.', sheet: 'Never groove or weld a single-tube body.' },
  { lead: 'Shim a loose sleeve.', text: 'A wrap of tape is a slip fit (common practice, no source), never what carries side load.', sheet: 'Tape is no shim.' },
  { lead: 'A spring loose at full droop fails inspection in many places', text: ', and may lose its seat.', sheet: 'A spring loose at full droop fails inspection in many places.' },
  { lead: 'Too little rebound damping for a stiffer spring floats:', text: 'drive slowly first.', sheet: 'Too little rebound damping floats: drive slowly first.' },
  { lead: 'Springs settle:', text: 'measure again after some hundred kilometres.', sheet: 'Measure again after some hundred kilometres.' },
  { lead: 'Do not set left and right far apart without scales', text: 'under all four wheels.', sheet: 'Left and right not far apart without scales.' },
  { lead: 'Local road rules and inspection come first.', text: 'Changed springs, heights and dampers may need approval, inspection or an entry in the papers; ask first, your insurer too. Have wheel alignment, headlamps and brake balance set again.', sheet: 'Road rules and inspection come first.' },
  { lead: 'These numbers do not replace a licensed workshop.', text: 'They come from a model of one corner. Have parts and finished car looked at by someone qualified before it is driven.', sheet: 'A licensed workshop has the last word.' },
];

/** For a page: a comma follows its lead without a space. */
export function cautionViews(): readonly { readonly lead: string; readonly rest: string }[] {
  return CAUTIONS.map(({ lead, text }) => ({ lead, rest: text.startsWith(',') ? text : ` ${text}` }));
}

/** Those of the build sheet, in few words. */
export function sheetCautions(): string {
  return CAUTIONS.flatMap(({ sheet }) => sheet ?? []).join(' ');
}

// What the reader of a best combination must know before trusting it, in a few words each; its report says more.

export function doubtsOf(best: Combination): string[] {
  return [...failing(best), ...tight(best), ...estimates(best), ...warnings(best)];
}

function failing({ workable, failures, axles }: Combination): string[] {
  if (workable) return [];
  const count = failures.length + axles.front.failures.length + axles.rear.failures.length;
  return [`does not work: ${count} ${count === 1 ? 'check fails' : 'checks fail'}`];
}

/** Clearances whose worst case is negative, and springs that may leave their seats: measure before you buy. */
function tight({ axles }: Combination): string[] {
  return AXLE_NAMES.flatMap((axle) =>
    axles[axle].tight.map(
      ({ contact, worst_mm, seat }) =>
        `tight ${axle}: ${contact}, at worst ${withUnits(seat?.worst_slack_mm ?? worst_mm, 'length', PAGE)}${seat ? ` loose of ${withUnits(seat.held_mm, 'length', PAGE)}` : ''}`,
    ),
  );
}

function estimates({ axles }: Combination): string[] {
  return AXLE_NAMES.filter((axle) => wordOf(axles[axle], 'solid_height_source') === 'estimated').map(
    (axle) => `estimate ${axle}: solid height`,
  );
}

function warnings({ axles, flags }: Combination): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags].filter(({ kind }) => kind === 'warning');
  const count = new Set(all.map(({ message }) => message)).size;
  return count === 0 ? [] : [`${count} ${count === 1 ? 'warning' : 'warnings'} in its report`];
}
