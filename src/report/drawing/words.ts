/** The words on a drawing. */
import type { CheckName } from '../../domain/checks.ts';
import type { ContactName } from '../../domain/corner/contacts.ts';
import { fixed, PAGE } from '../numbers.ts';
import type { Clearance, PositionName } from './layout.ts';
import { type PlacedText, type TextStyle, TYPE } from './shapes.ts';

export const POSITION_TITLES: Readonly<Record<PositionName, string>> = {
  droop: 'full droop',
  standing: 'standing',
  full: 'full bump',
};

/** Short: they stand in a narrow column. */
const CONTACT_WORDS: Readonly<Record<ContactName, string>> = {
  coil_bind: 'coil bind',
  damper: 'damper bottoms',
  sleeve_isolator: 'sleeve to isolator',
  sleeve_flange: 'sleeve to flange',
  sleeve_washers: 'sleeve to washers',
  sleeve_plate: 'sleeve to plate',
  body_isolator: 'body to isolator',
  body_flange: 'body to flange',
  tyre_arch: 'tyre to arch',
};

/** Failing checks that have a place on the drawing other than a clearance. */
export const PLACED_CHECKS: Readonly<Partial<Record<CheckName, string>>> = {
  unloaded_spring: 'spring unloaded',
  droop_travel: 'too little droop',
  overstressed: 'spring overstressed',
};

export const WORDS = {
  head: 'clearance, mm',
  brackets: 'in brackets: with the stop fully closed',
  detail: 'full bump, enlarged',
  damper: (mm: number) => `damper ${millimetres(mm)}`,
  hubToArch: (mm: number) => `height ${millimetres(mm)}`,
  spring: (mm: number) => `spring ${millimetres(mm)}`,
  scaleBar: '50 mm, figures',
  scaleBarDetail: '25 mm, enlarged',
  sleeveTop: (mm: number) => `sleeve top ${millimetres(mm)}`,
  trim: (mm: number) => `trim ${millimetres(mm)}`,
  perch: (mm: number) => `perch ${millimetres(mm)}`,
  perchLow: (mm: number) => `perch ${millimetres(mm)}: too low`,
  perchHigh: (mm: number) => `perch ${millimetres(mm)}: too high`,
  toStop: (mm: number) => (mm < 0 ? `in stop ${millimetres(-mm)}` : `to stop ${millimetres(mm)}`),
  toStopShort: (mm: number) => `${WORDS.toStop(mm)}: too little`,
  slack: (mm: number) => (mm > 0.05 ? `loose ${millimetres(mm)}` : `preload ${millimetres(-mm)}`),
  slackTooMuch: (mm: number) => `loose ${millimetres(mm)}: too much`,
  solid: (mm: number, isStack: boolean) => `${isStack ? 'stack solid' : 'solid'} ${millimetres(mm)}`,
} as const;

/** Name and numbers of a clearance, anchored nowhere yet. */
export function clearanceLines(clearance: Clearance): readonly [PlacedText, PlacedText] {
  const { name, spare, fails, isThinnest } = clearance;
  const style: { style?: TextStyle } = fails ? { style: 'fail' } : isThinnest ? { style: 'thin' } : {};
  const rest = fails ? `${millimetres(-spare)} short` : `${millimetres(spare)} spare`;
  const closed = clearance.closed === null ? '' : ` (${millimetres(clearance.closed)})`;
  const line = { x: 0, y: 0, size: TYPE, anchor: 'start' } as const;
  return [
    { ...line, text: CONTACT_WORDS[name], ...style },
    { ...line, text: `${millimetres(clearance.clearance)}${closed}, ${rest}`, ...style },
  ];
}

export function millimetres(value: number): string {
  return fixed(value, 1, PAGE);
}

const CHECKS_IN_PLACE: ReadonlySet<CheckName> = new Set<CheckName>([
  ...['damper_bottoms', 'sleeve_metal', 'body_metal', 'tyre_on_arch', 'coil_bind'],
  ...['bump_travel', 'perch_low', 'perch_high', 'spring_loose'],
  ...Object.keys(PLACED_CHECKS),
] as CheckName[]);

/** Whether the drawing shows such a failure where it happens. */
export function hasPlace(check: CheckName): boolean {
  return CHECKS_IN_PLACE.has(check);
}
