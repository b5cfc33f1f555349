/** A front and a rear combination, found by their places in the products of options. */
import { siteOf } from '../domain/corner/site.ts';
import { type ChosenCorner, type JudgedPair, judgePair } from '../domain/reporting/combination.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import { cornerAt } from './options.ts';

/** Places of both combinations. */
export type Choice = Readonly<Record<AxleName, number>>;

export function judgeChoice(scenario: Scenario, setup: Setup, choice: Choice): JudgedPair {
  const chosen = (axle: AxleName): ChosenCorner => ({
    index: choice[axle],
    site: siteOf(scenario, setup, axle),
    corner: cornerAt(scenario.axles[axle].options, choice[axle]),
  });
  return judgePair(scenario, setup, chosen('front'), chosen('rear'));
}
