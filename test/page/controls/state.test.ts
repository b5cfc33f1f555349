import { expect, test } from 'vitest';
import { othersIn, readState, type State, writeState } from '../../../src/page/controls/state.ts';

const PLAIN: State = { anchor: '', units: 'both', find: '', tightness: 'all', orders: {} };

test('a page as printed leaves its address alone', () => {
  expect(readState('')).toEqual(PLAIN);
  expect(writeState(PLAIN)).toBe('');
});

test('a link to a row is the row’s id and nothing else', () => {
  expect(readState('#low-F2M5')).toEqual({ ...PLAIN, anchor: 'low-F2M5' });
  expect(writeState({ ...PLAIN, anchor: 'low-F2M5' })).toBe('#low-F2M5');
});

test('what was set survives the address, with a row and without', () => {
  const set: State = {
    anchor: 'low-F2M5',
    units: 'imperial',
    find: 'helper & 50 = "x" #1',
    tightness: 'not tight',
    orders: { 0: { column: 4, falling: true }, 12: { column: 0, falling: false } },
  };
  for (const state of [set, { ...set, anchor: '' }]) expect(readState(writeState(state))).toEqual(state);
});

test('nonsense in an address is taken as nothing set', () => {
  const nonsense = '#units=furlong&care=<img>&sort0=x&sort=1a&sort1=9999a&find=';
  expect(readState(nonsense)).toEqual(PLAIN);
  expect(readState('#%E0%A4%A')).toEqual({ ...PLAIN, anchor: '%E0%A4%A' });
});

test('what other scripts keep in the address stays as it is', () => {
  const hash = '#low-F1&units=metric&bench=low-F1-R2-7Q*front*front.trim-12.5&sort3=1a&find=x';
  expect(othersIn(hash)).toEqual(['bench=low-F1-R2-7Q*front*front.trim-12.5']);
  expect(writeState(readState(hash), othersIn(hash))).toBe(
    '#low-F1&units=metric&find=x&sort3=1a&bench=low-F1-R2-7Q*front*front.trim-12.5',
  );
  expect(othersIn('#drawing')).toEqual([]);
});
