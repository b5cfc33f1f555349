/** What stands along the figure of the live drawing: its lengths, and what fails at the place where it does. */
import type { CheckName } from '../domain/checks.ts';
import type { Finding } from '../domain/corner/findings.ts';
import type { CornerLayout, Position, Span } from '../report/drawing/layout.ts';
import type { Radii } from '../report/drawing/sheet.ts';
import { at, type Remark } from '../report/drawing/strips.ts';
import { WORDS } from '../report/drawing/words.ts';
import type { Place } from './travel.ts';
import { FAILS, FIT_FAILS } from './words.ts';

export function remarksAt(
  layout: CornerLayout,
  place: Place,
  findings: readonly Finding[],
  radii: Radii,
): readonly Remark[] {
  const failing = new Set(findings.map(({ check }) => check));
  return [
    ...cutRemark(layout, radii),
    perchRemark(layout, failing, radii),
    stopRemark(layout, place, radii),
    ...failRemarks(layout.positions.full, findings),
  ];
}

function cutRemark({ lengths: { sleeve } }: CornerLayout, radii: Radii): Remark[] {
  if (sleeve.trim <= 0) return [];
  const span: Span = [sleeve.top, sleeve.top + sleeve.trim];
  return [{ span, text: WORDS.trim(sleeve.trim), emphasis: 'plain', reach: radii.sleeveOut }];
}

function perchRemark({ lengths }: CornerLayout, failing: ReadonlySet<CheckName>, radii: Radii): Remark {
  const { seat } = lengths.perch;
  const [low, high] = [failing.has('perch_low'), failing.has('perch_high')];
  const text = low ? WORDS.perchLow(seat) : high ? WORDS.perchHigh(seat) : WORDS.perch(seat);
  return { span: [0, seat], text, emphasis: low || high ? 'fail' : 'plain', reach: radii.springOut };
}

function stopRemark({ lengths: { stop } }: CornerLayout, { toStop }: Place, radii: Radii): Remark {
  const span: Span = toStop < 0 ? [stop.meetsAt + toStop, stop.meetsAt] : [stop.meetsAt, stop.meetsAt + toStop];
  return { span, text: WORDS.toStop(toStop), emphasis: 'plain', reach: Math.max(radii.body, stop.diameter / 2) };
}

/** Each failing check away from the clearances once; perch and clearances are marked where their lengths stand. */
function failRemarks(position: Position, findings: readonly Finding[]): Remark[] {
  const texts = new Map<string, number>();
  for (const { check, detail } of findings) {
    const text = check === 'fit' ? FIT_FAILS[detail] : FAILS[check];
    if (text !== undefined) texts.set(text, heightOf(position, check, detail));
  }
  return [...texts].map(([text, height]) => at(height, text));
}

function heightOf(position: Position, check: CheckName, detail: string): number {
  const middle = ([from, to]: Span) => (from + to) / 2;
  if (check === 'bump_travel') return position.stop[0];
  if (check === 'droop_travel') return position.body[1];
  if (check === 'spring_loose') return position.seat;
  if (check !== 'fit') return middle(position.spring);
  if (detail.startsWith('thread')) return middle(position.nuts);
  if (detail.startsWith('stop')) return position.flange;
  return detail === 'sleeve_over_body' ? position.sleeve[0] : position.sleeve[1];
}
