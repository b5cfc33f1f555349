import { expect, test } from 'vitest';
import { cureText, partsText } from '../../src/advice/messages.ts';
import type { CureChange } from '../../src/result/advice.ts';
import { plainCorner } from '../setup/corners.ts';

const change = (kind: CureChange['kind'], from_mm: number, to_mm: number): CureChange => {
  return { kind, part: 'the part', from_mm, to_mm };
};

const GROOVE = 'Lower the groove under the part by 6.0 mm in all (a question for the workshop';
const UNKNOWN =
  'only if the body is no single tube, whose piston runs on the inside of that wall, gas pressure behind it';

test.each<[text: string, ...changes: CureChange[]]>([
  ['Trim the part by 15.0 mm in all, 5.0 mm more', change('trim', 10, 15)],
  ['Trim the part by 10.0 mm in all, 5.0 mm less', change('trim', 15, 10)],
  ['Put a spacer of 8.0 mm to the part', change('spacer', 0, 8)],
  ['Make the spacer of the part 8.0 mm instead of 4.0 mm', change('spacer', 4, 8)],
  ['Cut the part to 38.0 mm instead of 60.0 mm', change('stop', 60, 38)],
  [`${GROOVE})`, change('groove', 0, 6)],
  [`${GROOVE}: ${UNKNOWN})`, { ...change('groove', 0, 6), body: 'unknown' }],
  [
    'Use a mount that holds the rod shoulder 15.0 mm lower than the part does (-3.0 mm above the tower plane)',
    change('mount', 12, -3),
  ],
  [
    'Use a mount that holds the rod shoulder 8.0 mm higher than the part does (20.0 mm above the tower plane)',
    change('mount', 12, 20),
  ],
  ['Add the part and cut the part to 38.0 mm instead of 60.0 mm', change('helper', 0, 0), change('stop', 60, 38)],
])('each change is what to do in the workshop: %s', (text, ...changes) => {
  expect(cureText({ changes })).toBe(text);
});

test('a choice of parts says what is cut, raised, packed and added, and nothing of what is not', () => {
  const plain = plainCorner();
  expect(partsText(plain)).toBe('damper; sleeve trimmed by 15.0 mm; mount; isolator; stop at 38.0 mm; no helper');
  const helper = { name: 'helper', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
  const full = plainCorner({
    sleeve: { ...plain.sleeve, trim: 0, grooveDrop: 4 },
    mount: { ...plain.mount, spacer: 8 },
    bumpStop: { ...plain.bumpStop, packer: 6 },
    isolator: null,
    helper: { ...helper, coupler: 4, couplerBore: 60 },
  });
  expect(partsText(full)).toBe(
    'damper; sleeve untrimmed, groove 4.0 mm lower; mount, spacer 8.0 mm; stop at 38.0 mm, packer 6.0 mm; helper',
  );
});
