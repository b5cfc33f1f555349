import { expect, test } from 'vitest';
import { findingMessage } from '../../../src/model/corner/checks.ts';
import { withValues } from '../../../src/page/bench/bench.ts';
import { differencesOf, notesOf } from '../../../src/page/bench/differences.ts';
import { messageOf } from '../../../src/page/bench/differencesPanel.ts';
import { judgeBench, quantitiesOf, verdictOf } from '../../../src/page/bench/findings.ts';
import { benchWith, recorded } from './records.ts';

const { record } = await recorded('hill-hatch');
const swept = benchWith(record);
const figure = (bench: typeof swept, id: string) =>
  quantitiesOf(bench, 'front', judgeBench(bench, 'front')).find((one) => one.id === id)?.value ?? Number.NaN;

test('what was swept works, and says what comes nearest its margin', () => {
  const { works, summary, lines, aside } = verdictOf('front', judgeBench(swept, 'front'));
  expect(works).toBe(true);
  expect(summary).toMatch(/^Works: every check passes\. Nearest its margin: .*, \d+\.\d mm beyond it\.$/);
  expect([lines, aside]).toEqual([[], '']);
});

test('a stop cut 5 mm shorter gives that much more bump travel', () => {
  const shorter = withValues(swept, 'front', { stop: swept.axles.front.stop - 5 });
  const gained = figure(shorter, 'bump_travel') - figure(swept, 'bump_travel');
  const { standing } = judgeBench(swept, 'front').judged.front.state;
  // At the wheel it is 5 mm over the motion ratio, which changes little over that way.
  expect(Math.abs(gained - 5 / standing.motionRatio)).toBeLessThan(0.1);
});

test('everything that fails is told with its sentence, the balance with the other axle too', () => {
  // Limits close around what was swept, so that a heavier front is out of balance.
  const ratio = judgeBench(swept, 'front').balance;
  const balance = { ...swept.setup.balance, limits: { from: ratio - 0.05, to: ratio + 0.05 } };
  const strict = { ...swept, setup: { ...swept.setup, balance } };
  const soft = withValues(strict, 'front', { wheelLoad: swept.axles.front.wheelLoad * 1.45 });
  const judgedBench = judgeBench(soft, 'front');
  expect(judgedBench.findings.map(({ check }) => check)).toContain('balance');
  const verdict = verdictOf('front', judgedBench);
  expect(verdict.summary).toBe(`Fails ${judgedBench.findings.length} checks.`);
  expect(verdict.lines).toEqual(judgedBench.findings.map(findingMessage));
});

test('an axle that fails is not forgotten while the other one is on the bench', () => {
  const loose = withValues(swept, 'rear', { stop: 50, place: swept.axles.rear.place - 30 });
  expect(verdictOf('front', judgeBench(loose, 'front')).aside).toMatch(
    /^The rear axle, .* fails \d+ checks? of its own\.$/,
  );
});

test('differences name axle, value and what was swept; a message carries them with the verdict and the caution', () => {
  const bench = withValues(swept, 'front', { stop: swept.axles.front.stop - 5, place: swept.axles.front.place + 8 });
  const was = swept.axles.front;
  expect(differencesOf(swept, swept)).toEqual([]);
  expect(differencesOf(bench, swept)).toEqual([
    {
      axle: 'front',
      what: 'bump stop as cut',
      now: `${(was.stop - 5).toFixed(1)} mm`,
      swept: `${was.stop.toFixed(1)} mm`,
    },
    {
      axle: 'front',
      what: 'ride height, hub to arch',
      now: `${(was.place + 8).toFixed(1)} mm`,
      swept: `${was.place.toFixed(1)} mm`,
    },
  ]);
  const message = messageOf(bench, swept, 'Hill hatch');
  expect(message).toContain(`combination ${swept.start.id}, with these changes:`);
  expect(message).toContain(
    `- front: bump stop as cut ${(was.stop - 5).toFixed(1)} mm instead of ${was.stop.toFixed(1)} mm`,
  );
  expect(message).toContain('The front axle by the model:');
  expect(message).toContain('The rear axle by the model:\nWorks');
  expect(message.trimEnd()).toMatch(/measure before you cut or fit anything\.$/);
});

test('a held perch counts as a difference only where the car comes to stand elsewhere', () => {
  const { perch } = judgeBench(swept, 'front').judged.front.state.standing;
  expect(differencesOf(withValues(swept, 'front', { held: 'perch', place: perch }), swept)).toEqual([]);
  expect(differencesOf(withValues(swept, 'front', { held: 'perch', place: perch - 2 }), swept)).toHaveLength(1);
});

test('estimates are called estimates, in the notes and in the message', async () => {
  const kit = benchWith((await recorded('kit-two-seater')).record);
  const notes = notesOf(judgeBench(kit, 'front').judged.front.state);
  expect(notes).toEqual([
    expect.stringMatching(
      /^Front: the solid height of front grid is an estimate, [\d.]+ mm to [\d.]+ mm; coil bind is judged on/,
    ),
    expect.stringMatching(/^Front: the stress of front grid is not checked/),
    expect.stringMatching(
      /^Front: front grid comes within [\d.]+ mm of coil bind at full bump; its least sum of gaps .* estimated wire/,
    ),
  ]);
  expect(messageOf(withValues(kit, 'front', { spacer: 1 }), kit, 'Kit')).toContain(notes[0]);
});

test('heights beyond the measured motion are named', () => {
  const to = 370;
  const cut = { ...record.axles.front.motion, pairs: record.axles.front.motion.pairs.filter((p) => p.hubToArch <= to) };
  const front = { ...record.axles.front, motion: cut };
  const bench = benchWith({ ...record, axles: { ...record.axles, front } });
  const notes = notesOf(judgeBench(bench, 'front').judged.front.state);
  expect(notes.at(-1)).toMatch(/^Front: outside the measured motion, .*full droop \([\d.]+ mm\)\.$/);
});
