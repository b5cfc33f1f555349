/** Sentences about a file of measurements. */
import type { Complaint } from '../../input/problems/problems.ts';
import { either, quantityInWords, shown } from '../../input/problems/value.ts';

export const MEASURED_FILE = 'a file of measurements (YAML)';

export function badVersion(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'the format version `1`',
    advice: 'start the file with `springsift_measured: 1`; a higher number needs a newer version of the program',
  };
}

export function oneBuild(): Complaint {
  return {
    found: 'not exactly one of `combination` and `best_of`',
    expected: 'what was built: the id of a combination, or the setup whose best one it is',
    advice: 'write `combination: ID` with the id from the report, or `best_of: SETUP`',
  };
}

export function wireWithCoils(): Complaint {
  return {
    found: 'only one of `wire` and `coils`',
    expected: 'both: solid height is wire times coils',
    advice: 'measure the other one too, or leave both out',
  };
}

export function samePerch(perch: number): Complaint {
  return {
    found: `the same perch height twice: ${quantityInWords(perch, 'mm')}`,
    expected: 'two places of the perch',
    advice: 'wind the perch before the second gap, or leave one of them out',
  };
}

export function nothingMeasured(): Complaint {
  return {
    found: 'no measurement',
    expected: 'at least one measurement under `front` or `rear`',
    advice: 'take the `#` off the lines that you measured, and write the values behind them',
  };
}

export function notThisBuild(id: string, reason: 'form' | 'check' | 'setup' | 'index'): Complaint {
  const advice = 'copy the id from the report, the CSV or the terminal of this scenario as it is now';
  const found = shown(id);
  if (reason === 'form') return { found, expected: 'an id like `low-F4F7-R2KD-7Q`', advice };
  return { found: `${found}, which is not of this scenario`, expected: 'the id of one of its combinations', advice };
}

export function noSuchSetup(name: string, setups: readonly string[]): Complaint {
  return {
    found: `the unknown setup ${shown(name)}`,
    expected: either(setups.map((s) => `\`${s}\``)),
    advice: 'name a setup of the scenario',
  };
}

export function solidAboveFree(solid: number, free: number): Complaint {
  return {
    found: `wire times coils of ${quantityInWords(solid, 'mm')}`,
    expected: `less than the free length of ${quantityInWords(free, 'mm')}`,
    advice: 'measure wire, coils and free length again',
  };
}
