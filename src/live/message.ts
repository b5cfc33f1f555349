/** The bench as a message to send back: what differs, and what the model says of it. */
import { findingMessage } from '../domain/messages.ts';
import { AXLE_NAMES } from '../domain/scenario.ts';
import type { Bench } from './bench.ts';
import { differencesOf } from './differences.ts';
import { notesOf } from './notes.ts';
import { tell } from './told.ts';
import { verdictOf } from './verdict.ts';
import { MESSAGE } from './words.ts';

export function messageOf(bench: Bench, swept: Bench, title: string): string {
  const verdicts = AXLE_NAMES.flatMap((axle) => {
    const told = tell(bench, axle);
    const notes = notesOf(told.judged[axle].state);
    const lines = [...told.findings.map(findingMessage), ...notes].map((line) => `- ${line}`);
    return [MESSAGE.verdict(axle), verdictOf(axle, told).head, ...lines];
  });
  return [
    MESSAGE.head(title, bench.setup.name, bench.start.id),
    ...differencesOf(bench, swept).map(MESSAGE.change),
    ...verdicts,
    MESSAGE.caution,
    '',
  ].join('\n');
}
