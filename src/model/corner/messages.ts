/** Words and sentences that several of the model’s files say. */
import type { StressDoubt, StressLine } from './stress.ts';

export const mm = (value: number) => `${value.toFixed(1)} mm`;

const STRESS_PLACES: Readonly<Record<StressDoubt['place'], readonly [where: string, allowed: string]>> = {
  solid: ['pressed solid', '0.56 of its strength, EN 13906-1, from memory'],
  'full bump': ['at full bump', '0.50 of its strength, older DIN 2089, from memory'],
};

export function stressSentence(place: StressDoubt['place'], { stress, allowed }: StressLine): string {
  const [where, share] = STRESS_PLACES[place];
  return `The spring’s stress ${where} is ${stress.toFixed(0)} MPa; ${allowed.toFixed(0)} MPa is allowed (${share}).`;
}

/** In place of a force or rate that a stop without a curve has a part in. */
export const STOP_FORCE_UNKNOWN = 'not known, the stop’s force is not given';

export const notes = {
  plansOmitted: (judged: number, most: number) =>
    `No plan over the setups was looked for: ${countMillions(judged)} million combinations are too many, ${countMillions(most)} million the most. Narrow the ranges around the best of each setup to plan with shared parts.`,
};

function countMillions(count: number): string {
  return Math.ceil(count / 1e6).toFixed(0);
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
