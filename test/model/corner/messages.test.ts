import { expect, test } from 'vitest';
import {
  CHECK,
  CHECKS,
  type CheckName,
  CLEAR_OF_STOP,
  CLOSED_BY,
  findingMessage,
  type LimitName,
  limitLabel,
  limitName,
} from '../../../src/model/corner/checks.ts';
import type { Finding } from '../../../src/model/corner/findings.ts';
import * as flags from '../../../src/model/corner/flagMessages.ts';
import { notes } from '../../../src/model/corner/messages.ts';
import type { SolidHeight } from '../../../src/model/parts.ts';
import { VALIDITY, type ValidityRow } from '../../../src/model/spring/details.ts';

const say = (check: CheckName, detail: string, found: number, needed: number) => {
  const finding: Finding = { check, detail, found, needed, shortfall: Math.abs(needed - found) };
  return findingMessage(finding);
};

test('contacts tell metal before full bump from metal that comes too near', () => {
  expect(say('coil_bind', 'coil_bind', -2.5, 6)).toMatch(
    /before full bump, by 2\.5 mm; the margin asks for 6\.0 mm\.$/,
  );
  expect(say('coil_bind', 'coil_bind', 0, 6)).toMatch(/with only 0\.0 mm to spare at full bump/);
});

test('a stack on the rod end says which end of the thread it misses, other fits say what is too tight', () => {
  expect(say('fit', 'thread_start', -3, 0)).toBe(
    'The nut would bottom on the plain shank: 3.0 mm more stack is needed below it.',
  );
  expect(say('fit', 'thread_end', -2, 0)).toBe(
    'Nut and jam nut would not be on full thread: the thread ends 2.0 mm too early.',
  );
  expect(say('fit', 'spring_over_sleeve', 0.5, 1)).toBe(
    'Does not fit: the spring’s bore over the sleeve has 0.5 mm on diameter, 1.0 mm is needed.',
  );
});

test('travel names the load state, and standing on the stop is said as such', () => {
  expect(say('bump_travel', 'clear of the stop', -4, 0)).toBe('The car would stand 4.0 mm into its bump stop.');
  expect(say('bump_travel', 'design load', 20, 35)).toBe('Bump travel left is 20.0 mm; at least 35.0 mm is asked for.');
  expect(say('droop_travel', 'luggage', 20, 35)).toMatch(/^Droop travel left \(luggage\) is 20\.0 mm/);
});

test('what is too low is below, what is too high is above', () => {
  expect(say('perch_low', 'lowest', 150, 179)).toMatch(/at 150\.0 mm, below its lowest place 179\.0 mm/);
  expect(say('perch_high', 'highest', 290, 271)).toMatch(/at 290\.0 mm, above its highest place 271\.0 mm/);
  expect(say('frequency', 'lowest', 1.1, 1.2)).toMatch(/1\.100 Hz, below the 1\.200 Hz/);
  expect(say('frequency', 'highest', 2.7, 2.6)).toMatch(/2\.700 Hz, above the 2\.600 Hz/);
  expect(say('frequency', 'unstable', -1, 0)).toMatch(/^No stable ride height: the wheel rate is -1\.00 N\/mm/);
  expect(say('balance', 'lowest', 0.8, 0.9)).toMatch(/is 0\.800, below 0\.900/);
  expect(say('balance', 'highest', 1.3, 1.2)).toMatch(/is 1\.300, above 1\.200/);
});

test('a loose spring says whether the seats or the wish decide, and a wish below 0 is shown as 0', () => {
  expect(say('spring_loose', 'spigot engagement', 9, 8)).toMatch(/more than the 8\.0 mm its seats hold/);
  expect(say('spring_loose', 'allowed slack', 9, -1)).toMatch(/9\.0 mm loose; 0\.0 mm is allowed/);
});

test('a spring that carries nothing and one that is overstressed are told in newtons and megapascals', () => {
  expect(say('unloaded_spring', 'standing', -120, 0)).toMatch(/push 120 N more than the load needs/);
  expect(say('overstressed', 'full bump', 1010, 950)).toMatch(/is 1010 MPa; 950 MPa is allowed/);
  const units = ['unloaded_spring', 'overstressed', 'frequency', 'balance', 'coil_bind'] as const;
  expect(units.map((check) => CHECK[check].unit)).toEqual(['N', 'MPa', 'Hz', '', 'mm']);
  expect(CHECKS.map((check) => CHECK[check].unit)).not.toContain(undefined);
});

test('a limit of the window has a name, with its load state where it has one', () => {
  expect(limitLabel('bump_stop')).toBe('on the bump stop');
  expect(limitLabel('droop_travel:two up')).toBe('least droop travel (two up)');
  expect(limitLabel('coil_bind')).toBe('coil bind');
  expect(limitLabel('tyre_arch')).not.toBe('tyre_arch');
});

test.each([
  ['perch_high', '', 'perch at its highest'],
  ['perch_low', '', 'perch at its lowest'],
  ['bump_travel', CLEAR_OF_STOP, 'on the bump stop'],
  ['bump_travel', `${CLOSED_BY}two up`, 'on the bump stop (two up)'],
  ['bump_travel', 'two up', 'least bump travel (two up)'],
  ['fit', 'stop_in_cup', CHECK.fit.label],
] as const)('a range that ends where %s fails (%s) ends at: %s', (check, detail, name) => {
  expect(limitName({ check, detail })).toBe(name);
});

test('a side’s failure tells what is missing where an amount can be told, in the check’s digits', () => {
  const side = (shortfall: number | null, unit: string) =>
    flags.sideFails('front', 'left', 301.25, 'coil_bind', { message: 'Sentence.', shortfall, unit });
  expect(side(2.25, 'mm')).toMatch(/^Front left, at its own load of 301\.3 kg: .*, by 2\.3 mm\. Sentence\.$/);
  expect(side(0.1234, 'Hz')).toMatch(/, by 0\.123 Hz\. Sentence\.$/);
  expect(side(0.1234, '')).toMatch(/, by 0\.123\. Sentence\.$/);
  expect(side(null, 'mm')).not.toMatch(/, by/);
});

test('a range of a formula is told by the ends it has', () => {
  const told = (row: ValidityRow) => flags.outsideValidity('rear', 'spring', { row, value: 700 });
  const [wire, , , length, coils] = VALIDITY as readonly ValidityRow[] & [ValidityRow];
  expect(told(wire)).toMatch(/wire 700\.0 mm lies outside the range of wire of cold-coiled springs, 0\.07 to 16 mm \(/);
  expect(told(length as ValidityRow)).toMatch(/, up to 630 mm \(/);
  expect(told(coils as ValidityRow)).toMatch(/active coils 700\.0 lies outside .*, from 2 \(/);
});

test('one measured pair and several are counted in words', () => {
  expect(flags.fewPairs('front', 1)).toMatch(/with 1 measured pair the slope/);
  expect(flags.fewPairs('front', 3)).toMatch(/with 3 measured pairs the slope/);
});

test('millions are rounded up, so that too many never looks like just enough', () => {
  expect(notes.plansOmitted(50_000_001, 50_000_000)).toMatch(
    /51 million combinations are too many, 50 million the most/,
  );
});

test('shares are told in percent, and which way Olley’s criterion is missed', () => {
  expect(flags.estimatedRate('front', 'spring', 38, 0.106)).toMatch(/38\.0 N\/mm, .* good to 11 % either way/);
  expect(flags.helperNearStanding('front', 0.95)).toMatch(/closes at 95 % of the standing/);
  expect(flags.olley(12, 1.1, 1.25)).toMatch(/is 12 % below the rear’s/);
  expect(flags.olley(-12, 1.1, 1.25)).toMatch(/is 12 % above the rear’s/);
});

test('numbers have the digits that anyone could measure', () => {
  const solid = (most: number): SolidHeight => {
    return { source: 'estimated', height: 81.31, least: 70.26, most, thinWire: 8, thickWire: 9 };
  };
  const line = { stress: 926.6, allowed: 860.3 };
  const doubt = { place: 'solid' as const, line, isMaterialTaken: false, isSolidDoubtful: false };
  expect(flags.stressDoubts('front', 'spring', [doubt])).toBe(
    'Front: spring: The spring’s stress pressed solid is 927 MPa; 860 MPa is allowed (0.56 of its strength, EN 13906-1, from memory).',
  );
  expect(flags.gapsMissed('rear', 'spring', { clearance: 12.06, least: 12.54 }, false)).toMatch(
    /within 12\.1 mm of coil bind .* 12\.5 mm \(EN 13906-1, from memory\), 18\.8 mm under repeated load/,
  );
  expect(flags.estimatedSolid('rear', 'spring', solid(81.31))).toMatch(
    /70\.3 mm to 81\.3 mm; .* judged on 81\.3 mm\. M/,
  );
  expect(flags.estimatedSolid('rear', 'spring', solid(97.26))).toMatch(
    /70\.3 mm to 97\.3 mm; .* judged on 81\.3 mm, and weaker steel or unground ends would make it taller\./,
  );
  expect(flags.damping('front', 0.256, 0.3, 0.5)).toMatch(/0\.26, lies outside 0\.30 to 0\.50/);
  expect(flags.olley(12.4, 1.134, 1.256)).toMatch(/12 % below .* 1\.13 times pitch, .* is 1\.26 Hz/);
  expect(flags.outsideMotion('front', [['full bump', 251.26]])).toMatch(/: full bump \(251\.3 mm\)\.$/);
  expect(flags.beyondFull('front', 'coil bind', -3.14, 6)).toMatch(/coil bind comes 3\.1 mm before/);
  expect(flags.beyondFull('front left', 'coil bind', 2.44, 6)).toMatch(/^Front left: .* 2\.4 mm left .* of 6\.0 mm\.$/);
  expect(flags.looseSleeve('front', 0.54)).toMatch(
    /is 0\.5 mm wider.*a shim takes it up.*tape.*never what carries side load/,
  );
});

test('one sentence a place tells a spring’s stress, whether it rejects or warns, and the advice stands once', () => {
  const line = { stress: 900, allowed: 800 };
  const doubts = (['solid', 'full bump'] as const).map((place) => ({
    ...{ place, line, isMaterialTaken: true },
    isSolidDoubtful: place === 'solid',
  }));
  const told = flags.stressDoubts('rear', 'spring', doubts);
  for (const { place } of doubts) {
    const finding = { check: 'overstressed' as const, detail: place, found: 900, needed: 800, shortfall: 100 };
    expect(told).toContain(findingMessage(finding));
  }
  expect(told.match(/Its material is not given/g)).toHaveLength(1);
  expect(told).toMatch(/The solid height given may be too low: ask, or measure it\.$/);
  expect(flags.gapsMissed('front', 'spring', { clearance: 9, least: 12 }, true)).toContain(
    'from memory, estimated wire',
  );
});

test('every limit of a height window has a name of its own', () => {
  const limits: LimitName[] = [
    'overstressed',
    'unloaded_spring',
    'frequency_from',
    'frequency_to',
    'perch_low',
    'coil_bind',
  ];
  const labels = limits.map(limitLabel);
  expect(new Set(labels).size).toBe(limits.length);
  for (const [k, limit] of limits.entries()) expect(labels[k]).not.toBe(limit);
});
