/** The words on a drawing. */
import type { Shown } from '../../model/corner/checkRecord.ts';
import { CHECK, CHECKS, type CheckName, recordOf } from '../../model/corner/checks.ts';
import { CONTACT, type ContactName } from '../../model/corner/contacts.ts';
import type { PositionName } from '../../result/records/lengths.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import type { Clearance } from './layout.ts';
import { type PlacedText, type TextStyle, TYPE } from './shapes.ts';

export const POSITION_TITLES: Readonly<Record<PositionName, string>> = {
  droop: 'full droop',
  standing: 'standing',
  full: 'full bump',
};

export const WORDS = {
  trim: (mm: number) => `trim ${millimetres(mm)}`,
  perch: (mm: number) => `perch ${millimetres(mm)}`,
  toStop: (mm: number) => (mm < 0 ? `in stop ${millimetres(-mm)}` : `to stop ${millimetres(mm)}`),
} as const;

/** Those that only the printed sheet has. */
export const SHEET_WORDS = {
  title: 'clearance, mm',
  brackets: 'in brackets: with the stop fully closed',
  detail: 'full bump, enlarged',
  damper: (mm: number) => `damper ${millimetres(mm)}`,
  hubToArch: (mm: number) => `height ${millimetres(mm)}`,
  spring: (mm: number) => `spring ${millimetres(mm)}`,
  scaleBar: '50 mm, figures',
  scaleBarDetail: '25 mm, enlarged',
  sleeveTop: (mm: number) => `sleeve top ${millimetres(mm)}`,
  slack: (mm: number) => (mm > 0.05 ? `loose ${millimetres(mm)}` : `preload ${millimetres(-mm)}`),
  loose: (mm: number) => `loose ${millimetres(mm)}`,
  solid: (mm: number, isStack: boolean) => `${isStack ? 'stack solid' : 'solid'} ${millimetres(mm)}`,
} as const;

/** Name and numbers of a clearance, anchored nowhere yet. */
export function clearanceLines(
  clearance: Clearance,
  failing: ReadonlySet<CheckName> = new Set(),
): readonly [PlacedText, PlacedText] {
  const { name, spare, fails, isThinnest } = clearance;
  const style: { style?: TextStyle } = fails ? { style: 'fail' } : isThinnest ? { style: 'thin' } : {};
  const rest = fails ? `${millimetres(-spare)} short` : `${millimetres(spare)} spare`;
  const closed = clearance.closed === null ? '' : ` (${millimetres(clearance.closed)})`;
  const line = { x: 0, y: 0, size: TYPE, anchor: 'start' } as const;
  return [
    { ...line, text: `${fails ? letterAt(name, failing) : ''}${CONTACT[name].short}`, ...style },
    { ...line, text: `${millimetres(clearance.clearance)}${closed}, ${rest}`, ...style },
  ];
}

export function millimetres(value: number): string {
  return fixed(value, 1, PAGE);
}

/** How drawings show a failure away from the clearances. */
export function shownOf(check: CheckName): Shown {
  const { shown } = recordOf(check);
  return shown === null || shown === 'clearance' ? {} : shown;
}

/** Whether the drawing shows such a failure where it happens. */
export function hasPlace(check: CheckName): boolean {
  const { figure, length } = shownOf(check);
  return recordOf(check).shown === 'clearance' || figure !== undefined || length !== undefined;
}

/** What failing checks say of a length that stands on the drawing; null: nothing is wrong with it. */
export function markOn(length: Shown['length'], failing: ReadonlySet<CheckName>): string | null {
  const check = checkOn(length, failing);
  return check === undefined ? null : (shownOf(check).mark ?? null);
}

function checkOn(length: Shown['length'], failing: ReadonlySet<CheckName>): CheckName | undefined {
  return CHECKS.find((name) => failing.has(name) && shownOf(name).length === length);
}

/** Failing checks that a list beside the drawing tells by their letters, as the maps of springs do. */
export class LetteredChecks extends Set<CheckName> {}

/** A check's letter before its words; empty where no list tells it. */
export function letterOf(check: CheckName | undefined, failing: ReadonlySet<CheckName>): string {
  const isSaid = check !== undefined && failing instanceof LetteredChecks && failing.has(check);
  return isSaid ? `${CHECK[check].letter}: ` : '';
}

/** The letter of what is wrong with a length that stands on the drawing. */
export function letterOn(length: Shown['length'], failing: ReadonlySet<CheckName>): string {
  return letterOf(checkOn(length, failing), failing);
}

/** The letter of the check that a contact belongs to. */
function letterAt(contact: ContactName, failing: ReadonlySet<CheckName>): string {
  return letterOf(
    CHECKS.find((name) => recordOf(name).part === CONTACT[contact].part),
    failing,
  );
}

/** A length's words with what is wrong with it. */
export function marked(words: string, mark: string | null): string {
  return mark === null ? words : `${words}: ${mark}`;
}
