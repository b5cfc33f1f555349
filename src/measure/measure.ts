/**
 * From a scenario, or none, to a sheet of everything to measure. Writes nothing.
 *
 *   fields of the format, values of the scenario --sift--> best of each setup --tolerances stepped--> sheet --> page
 */
import type { ScenarioFields } from '../input/schema/scenario.ts';
import { cornerAt } from '../model/corner/options.ts';
import { siteOf } from '../model/corner/site.ts';
import { fingerprintOf, pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../model/scenario.ts';
import { type Checked, SweepStopped } from '../pipeline.ts';
import { type AxleEffects, effectsOf } from '../result/tolerance/effects.ts';
import type { SetupOutcome } from '../sweep/outcome.ts';
import { QUIET_RUN, type RunOptions, sweepAll } from '../sweep/sweep.ts';
import { defaultTolerances, type MeasureSheet, measuredFields } from './measurable.ts';
import { startFile } from './startFile.ts';

/** The sheet of a scenario: its values beside the boxes, and what each measurement decides for its best purchases. */
export async function measureSheetOf(
  read: Checked & { readonly fields: ScenarioFields },
  tool: string,
  run: RunOptions = QUIET_RUN,
): Promise<MeasureSheet> {
  const { scenario } = read;
  const swept = await sweepAll(scenario, run);
  if (swept.judged < swept.of || run.signal?.aborted === true) throw new SweepStopped(swept.judged, swept.of);
  const found = swept.setups.flatMap((outcome) => bestOf(scenario, outcome) ?? []);
  return {
    ...blankSheet(tool),
    scenario: scenario.name,
    fields: measuredFields(read),
    files: read.files,
    tolerances: scenario.tolerances,
    bests: found.map(({ setup, id }) => ({ setup: setup.name, id })),
    effects: found.flatMap(({ effects }) => effects),
  };
}

export function blankSheet(tool: string): MeasureSheet {
  const tolerances = defaultTolerances();
  return {
    tool,
    scenario: null,
    fields: measuredFields(null),
    files: [{ path: 'scenario.yaml', text: startFile() }],
    tolerances,
    defaults: tolerances,
    bests: [],
    effects: [],
  };
}

/** The sheet as a page. */
export async function drawMeasure(sheet: MeasureSheet): Promise<string> {
  const { measureHtml } = await import('./page.ts');
  return measureHtml(sheet);
}

interface Best {
  readonly setup: Setup;
  readonly id: string;
  readonly effects: readonly AxleEffects[];
}

/** The best pair of a setup with its effects; null where nothing works. */
function bestOf(scenario: Scenario, { setup, pairs }: SetupOutcome): Best | null {
  const [best] = pairs.best;
  if (!best) return null;
  const index = { front: best.front.index, rear: best.rear.index };
  const effects = (axle: AxleName): AxleEffects => {
    const model = { site: siteOf(scenario, setup, axle), corner: cornerAt(scenario.axles[axle].options, index[axle]) };
    return { setup: setup.name, axle, effects: effectsOf(model, scenario.tolerances) };
  };
  const id = pairId({ setup: setup.name, ...index }, fingerprintOf(scenario));
  return { setup, id, effects: AXLE_NAMES.map(effects) };
}
