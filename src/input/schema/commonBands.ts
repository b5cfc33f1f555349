import { LEAST_WIRE } from '../../model/spring/spring.ts';

/**
 * What is usual: per dimension of a part a band that cars on the road stay within, in inner units (a share: in per cent).
 * Common practice, no source. A value outside is no fault: it is looked at twice, because most of them are slips.
 */
export interface CommonBand {
  readonly least: number;
  readonly most: number;
}

export function usual(least: number, most: number): { readonly usual: CommonBand } {
  return { usual: { least, most } };
}

/** Bands, and limits, that several fields share: of a scenario, of a catalogue's columns and of measurements. */
export const COMMON = {
  wheelLoad: usual(80, 550),
  hubToArch: usual(120, 700),
  damperLength: usual(150, 800),
  freeLength: usual(80, 500),
  rate: usual(8, 160),
  seatBore: usual(30, 150),
  springBore: usual(40, 130),
  solidHeight: usual(20, 260),
  wire: { least: LEAST_WIRE, most: 100, ...usual(5, 20) },
  coils: usual(3, 20),
  coating: usual(0, 1),
  helperFreeLength: usual(20, 200),
  sleeveLength: usual(60, 350),
  stopLength: usual(10, 150),
  spigot: usual(0, 30),
  bush: usual(0, 40),
  washers: usual(0, 15),
  raise: usual(-100, 150),
  stressShare: usual(0.3, 0.7),
  frequency: usual(0.8, 3.5),
  dampingRatio: usual(0.05, 1.5),
  extraLoad: usual(-200, 250),
  loadMultiple: usual(0.2, 5),
  margin: usual(0, 20),
  balance: usual(0.7, 1.5),
  balanceLimit: usual(0.5, 2),
  perch: usual(60, 500),
  gap: usual(0, 250),
} as const;
