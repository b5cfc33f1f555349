/** What workbench and workshop get of a combination beside its values: bands of the bench test, the central formulas. */
import { thinnestMetal } from '../../model/corner/state.ts';
import type { AxleName } from '../../model/scenario.ts';
import type { WorkingLine } from '../quantities/quantity.ts';
import type { BandReport, BuildSheet, CombinationWorking } from '../result.ts';
import { benchBands } from '../tolerance/bench.ts';
import { bandReport, type JudgedPair } from './combination.ts';
import { workingOfPair } from './explain.ts';

/** What decides, from the load to the frequency; which metal comes nearest depends on the corner. */
const CENTRAL = ['W', 'F_d', 'F_s', 'x', 'P', 'l_closed', 'l_full', 'c_coil_bind', 'metal', 'k_w', 'f'];

export function buildSheetOf(pair: JudgedPair): BuildSheet {
  return {
    bands: { front: bandsOf(pair, 'front'), rear: bandsOf(pair, 'rear') },
    working: centralWorking(pair),
  };
}

function bandsOf({ scenario, workings }: JudgedPair, axle: AxleName): Record<string, BandReport> {
  const { state } = workings[axle];
  const bands = benchBands(state, scenario.tolerances, state.standing.perch);
  return Object.fromEntries(Object.entries(bands).map(([key, band]) => [key, bandReport(band)]));
}

/** The dozen formulas that decide whether and how a corner works, in the order in which one follows from the other. */
function centralWorking(pair: JudgedPair): CombinationWorking {
  const { axles, pair: both } = workingOfPair(pair);
  const central = (axle: AxleName) => {
    const symbols = symbolsOf(pair, axle);
    return symbols.map((symbol) => axles[axle].find((line) => line.symbol === symbol) as WorkingLine);
  };
  return {
    axles: { front: central('front'), rear: central('rear') },
    pair: both.filter(({ symbol }) => symbol === 'ratio'),
  };
}

function symbolsOf({ setup, workings }: JudgedPair, axle: AxleName): string[] {
  const own: Readonly<Record<string, string>> = {
    metal: `c_${thinnestMetal(workings[axle].state).name}`,
    f: setup.frequencyBasis === 'body' ? 'f_body' : 'f_ride',
  };
  return CENTRAL.map((symbol) => own[symbol] ?? symbol);
}
