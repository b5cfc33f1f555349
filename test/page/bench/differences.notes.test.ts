import { expect, test } from 'vitest';
import type { CornerState } from '../../../src/model/corner/state.ts';
import { judge } from '../../../src/page/bench/bench.ts';
import { notesOf } from '../../../src/page/bench/differences.ts';
import { FRAGMENT, PICK } from '../../../src/page/bench/words.ts';
import { benchWith, recorded } from './records.ts';

const { record } = await recorded('hill-hatch');
const { state } = judge(benchWith(record), 'front');
const withSpring = (change: object): CornerState => ({
  ...state,
  corner: { ...state.corner, spring: { ...state.corner.spring, ...change } },
});

test('what of a spring is an estimate or computed is noted: its rate, its solid height', () => {
  const { name } = state.corner.spring;
  expect(notesOf(withSpring({ rateEstimated: true }))).toContain(
    `The rate of ${name} is an estimate from wire, coils and bore.`,
  );
  expect(notesOf(withSpring({ rateEstimated: false })).join()).not.toContain('The rate of');
  const solid = { ...state.corner.spring.solid, source: 'wire x coils' };
  expect(notesOf(withSpring({ solid })).join()).toMatch(/wire times coils/);
});

test('a motion of a single measured pair is never used beyond what was measured', () => {
  const far = { ...state, full: { ...state.full, height: -1000 } };
  expect(notesOf(far).length).toBe(notesOf(state).length + 1);
  const motion = { ...state.site.motion, heights: [state.standing.height] };
  const single = { ...far, site: { ...state.site, motion } };
  expect(notesOf(single)).toEqual(notesOf({ ...single, full: state.full }));
});

test('an estimated rate is called one in the list of springs, and a solid height from coils in the lines to keep', () => {
  const { spring } = withSpring({ rateEstimated: true, solid: { source: 'wire x coils', height: 80 } }).corner;
  expect(PICK.spring(spring)).toMatch(/ N\/mm \(estimate\)$/);
  expect(FRAGMENT.spring(spring)).toEqual(['The solid height is wire times coils; measure it.']);
});
