import { expect, test } from 'vitest';
import { hire } from '../../src/sweep/hand.ts';
import { WorkerLost } from '../../src/sweep/threads.ts';

const hired = (name: string) => hire<number, number>(import.meta.url, name);

test('a thread without a file gives an error, not a hang', async () => {
  const hand = hired('handNowhere');
  await expect(hand.run(1)).rejects.toThrow(/handNowhere/);
  await hand.dismiss();
});

test('a thread does its work, tells what it cannot do, and is lost when it ends by itself', async () => {
  const hand = hired('handHelper');
  expect(await hand.run(20)).toBe(21);
  await expect(hand.run(-1)).rejects.toThrow('less than nothing');
  await expect(hand.run(0)).rejects.toThrow(WorkerLost);
  await hand.dismiss();
});

test('a thread that fails while it has no work says so with the next task', async () => {
  const hand = hired('handHelper');
  expect(await hand.run(1)).toBe(2);
  await new Promise((resolve) => setTimeout(resolve, 500));
  await expect(hand.run(20)).rejects.toThrow('tired');
  await hand.dismiss();
});
