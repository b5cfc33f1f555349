import { expect, test } from 'vitest';
import { draw, newDrawingThread } from '../../src/pipeline/drawing.ts';
import type { Result } from '../../src/result/result.ts';
import { sweptScenario } from '../setup/scenarios.ts';

const result = await sweptScenario('kit-two-seater');
const pages = await draw(result);
const LONG = { timeout: 300_000 };

test('a thread draws the same pages as this one, again and again, ready before or not', LONG, async () => {
  const drawings = newDrawingThread(2);
  try {
    expect(await drawings.draw(result)).toEqual(pages);
    drawings.getReady();
    drawings.getReady();
    expect(await drawings.draw(result)).toEqual(pages);
    expect(await drawings.draw(result)).toEqual(pages);
  } finally {
    await drawings.close();
  }
});

test('what was sketched before gives the same pages, and a sketch that fails hinders nothing', LONG, async () => {
  const drawings = newDrawingThread(2);
  try {
    drawings.getReady();
    drawings.sketch({
      ...result,
      setups: result.setups.map((setup) => ({ ...setup, advice: null })),
    } as unknown as Result);
    drawings.sketch({ ...result, setups: null } as unknown as Result);
    expect(await drawings.draw(result)).toEqual(pages);
  } finally {
    await drawings.close();
  }
});

test('with one core there is no thread, and the pages are the same', LONG, async () => {
  const drawings = newDrawingThread(1);
  drawings.getReady();
  drawings.sketch(result);
  expect(await drawings.draw(result)).toEqual(pages);
  await drawings.close();
});

test('what cannot be drawn gives its error, and the next drawing works', LONG, async () => {
  const drawings = newDrawingThread(2);
  try {
    drawings.getReady();
    await expect(drawings.draw({ ...result, setups: null } as unknown as Result)).rejects.toThrow(TypeError);
    expect(await drawings.draw(result)).toEqual(pages);
  } finally {
    await drawings.close();
  }
});

test('a thread closed in the midst of a drawing gives an error, not a hang', LONG, async () => {
  const drawings = newDrawingThread(2);
  drawings.getReady();
  const drawn = drawings.draw(result);
  await Promise.all([drawings.close(), expect(drawn).rejects.toThrow(/terminat/i)]);
});
