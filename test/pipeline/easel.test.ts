import { expect, test } from 'vitest';
import type { Result } from '../../src/domain/result.ts';
import { draw } from '../../src/pipeline/drawing.ts';
import { newEasel } from '../../src/pipeline/easel.ts';
import { sift } from '../../src/pipeline.ts';
import { realScenario } from '../setup/scenarios.ts';

const result = await sift({ scenario: await realScenario('kit-two-seater'), files: [] }, 'test');
const pages = await draw(result);
const LONG = { timeout: 300_000 };

test('a thread draws the same pages as this one, again and again, ready before or not', LONG, async () => {
  const easel = newEasel(2);
  try {
    expect(await easel.draw(result)).toEqual(pages);
    easel.getReady();
    easel.getReady();
    expect(await easel.draw(result)).toEqual(pages);
    expect(await easel.draw(result)).toEqual(pages);
  } finally {
    await easel.close();
  }
});

test('what was sketched before gives the same pages, and a sketch that fails hinders nothing', LONG, async () => {
  const easel = newEasel(2);
  try {
    easel.getReady();
    easel.sketch({
      ...result,
      setups: result.setups.map((setup) => ({ ...setup, advice: null })),
    } as unknown as Result);
    easel.sketch({ ...result, setups: null } as unknown as Result);
    expect(await easel.draw(result)).toEqual(pages);
  } finally {
    await easel.close();
  }
});

test('with one core there is no thread, and the pages are the same', LONG, async () => {
  const easel = newEasel(1);
  easel.getReady();
  easel.sketch(result);
  expect(await easel.draw(result)).toEqual(pages);
  await easel.close();
});

test('what cannot be drawn gives its error, and the next drawing works', LONG, async () => {
  const easel = newEasel(2);
  try {
    easel.getReady();
    await expect(easel.draw({ ...result, setups: null } as unknown as Result)).rejects.toThrow(TypeError);
    expect(await easel.draw(result)).toEqual(pages);
  } finally {
    await easel.close();
  }
});

test('an easel closed in the midst of a drawing gives an error, not a hang', LONG, async () => {
  const easel = newEasel(2);
  easel.getReady();
  const drawn = easel.draw(result);
  await Promise.all([easel.close(), expect(drawn).rejects.toThrow(/terminat/i)]);
});
