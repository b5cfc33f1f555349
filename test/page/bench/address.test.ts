import fc from 'fast-check';
import { expect, test } from 'vitest';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { noteIn, noteOf, readNote, withNote } from '../../../src/page/bench/address.ts';
import { type Bench, canBear } from '../../../src/page/bench/bench.ts';
import { SCENARIOS } from '../../setup/scenarios.ts';
import { benchWith, recorded } from './records.ts';

const mm = fc.double({ min: 0, max: 400, noNaN: true });

/** Any values, a helper and a spring out of the tables among them. */
function anyBench(swept: Bench): fc.Arbitrary<Bench> {
  const values = (axle: 'front' | 'rear') => {
    const { helper, spring } = swept.record.axles[axle].options;
    return fc.record({
      held: fc.constantFrom('height' as const, 'perch' as const),
      place: mm,
      trim: fc.oneof(fc.constant(swept.axles[axle].trim), mm),
      spacer: mm,
      stop: fc.oneof(fc.constant(swept.axles[axle].stop), mm),
      helper: fc.nat(helper.length - 1),
      spring: fc.nat(spring.length - 1),
      wheelLoad: fc.double({ min: 200, max: 900, noNaN: true }),
    });
  };
  const loads = fc.double({ min: 0.5, max: 9, noNaN: true });
  // Without the stops' curves there is no bump load to note.
  const bumpLoad = canBear(swept.record) ? fc.oneof(fc.constant(null), loads) : fc.constant(null);
  return fc
    .record({ bumpLoad, front: values('front'), rear: values('rear') })
    .map(({ bumpLoad: load, front, rear }) => ({ ...swept, bumpLoad: load, axles: { front, rear } }));
}

test.each(SCENARIOS)('a note of %s gives back every value, through the address as browsers keep it', async (name) => {
  const { record } = await recorded(name);
  const swept = benchWith(record, 1);
  fc.assert(
    fc.property(anyBench(swept), fc.constantFrom(...AXLE_NAMES), (bench, axle) => {
      const note = noteOf(bench, swept, axle);
      // What the page itself keeps in the address goes through here and back.
      const address = `#${new URLSearchParams({ units: 'metric', bench: note }).toString()}`;
      expect(noteIn(address)).toBe(note);
      expect(readNote(record, noteIn(address))).toEqual({ bench, axle });
    }),
  );
});

test('nothing is noted where nothing differs', async () => {
  const { record } = await recorded('hill-hatch');
  const swept = benchWith(record);
  expect(noteOf(swept, swept, 'rear')).toBe('');
});

test('words that nobody wrote here change nothing, an unknown combination has no bench', async () => {
  const { record } = await recorded('hill-hatch');
  const swept = benchWith(record);
  const strange = [
    ...['front.trim-x', 'front.spring-99', 'rear.helper--1', 'front.toString-3', 'bump--2', 'bump-Infinity', 'front.'],
    ...['front.wheelLoad-3', 'front.trim--4', '', '<b>', 'front.trim-12-13'],
  ];
  expect(readNote(record, [swept.start.id, 'front', ...strange].join('*'))).toEqual({ bench: swept, axle: 'front' });
  expect(readNote(record, 'low-F0-R0-00*front')).toBeNull();
  expect(readNote(record, '')).toBeNull();
});

test('the note stands beside everything else in the address and leaves it as it is', () => {
  expect(withNote('', 'a*b')).toBe('#bench=a*b');
  expect(withNote('#drawing', 'a*b')).toBe('#drawing&bench=a*b');
  expect(withNote('#low-F1&units=metric&bench=old&find=%20x', 'new')).toBe('#low-F1&units=metric&find=%20x&bench=new');
  expect(withNote('#units=metric&bench=old', '')).toBe('#units=metric');
  expect(withNote('#bench=old', '')).toBe('');
  expect(noteIn('#drawing')).toBe('');
});
