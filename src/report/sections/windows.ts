/** The height windows of what is bought and of the shortlist, one chart an axle. */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { Combination, Result } from '../../result/result.ts';
import { drawChart } from '../charts/draw.ts';
import { PAPER_WIDTH, WIDTH, type WindowRow, windowChart } from '../charts/heightWindow.ts';
import { ofAnswers, section } from '../frame/section.ts';
import type { Answer } from '../text/answers.ts';
import { AXLE_TITLES, rankText } from '../text/labels.ts';
import { count, inInner, PAGE } from '../text/numbers.ts';
import { choiceOf, measure, quantityOf, wordOf } from '../text/parts.ts';

export const windows = section({
  id: 'windows',
  link: 'Height windows',
  title: 'Height windows',
  view: (page) => ofAnswers(page, (answer, isFirst) => windowsView(page.result, answer, isFirst)),
  prints: true,
  leaves: null,
  beside: 'pictures',
});

/** Rows of a chart: what still reads on a phone. */
export const MOST_ROWS = 12;

/** @param isPrinted whether print shows this setup's charts */
export async function windowsView(result: Result, answer: Answer, isPrinted = false) {
  const { setup } = answer;
  const charts = [];
  // One after the other: drawing numbers its definitions from a shared counter.
  for (const axle of AXLE_NAMES) charts.push(await axleWindows(answer, axle, isPrinted));
  return { setup: setup.name, isBuild: result.mode === 'build', charts };
}

async function axleWindows(answer: Answer, axle: AxleName, isPrinted: boolean) {
  const { setup } = answer;
  const target = setup.targets[axle];
  const length = (value: number) => measure(value, 'length');
  const rows = [...planRow(answer, axle), ...windowRows(setup.shortlist, axle)];
  const drawRows = (shown: readonly WindowRow[], width: number) =>
    drawChart(
      windowChart({
        rows: shown,
        width,
        target: target.target_height_mm,
        wantedFrom: target.wanted_from_mm,
        wantedTo: target.wanted_to_mm,
      }),
    );
  return {
    axle,
    title: AXLE_TITLES[axle],
    drawing: await drawRows(rows.slice(0, MOST_ROWS), WIDTH),
    /** The best row alone, small, for print; null where the setup’s charts are not printed. */
    small: isPrinted ? await drawRows([boughtRow(answer, axle)], PAPER_WIDTH) : null,
    /** How many further rows were left out; null when none. */
    left: rows.length > MOST_ROWS ? count(rows.length - MOST_ROWS, PAGE) : null,
    wantedFrom: length(target.wanted_from_mm),
    wantedTo: length(target.wanted_to_mm),
    target: length(target.target_height_mm),
  };
}

/** What is bought, by the name of its spring. */
function boughtRow({ combination }: Answer, axle: AxleName): WindowRow {
  return { name: combination.axles[axle].parts.spring.name, ...windowOf(combination, axle) };
}

/** Above the ranks of the setup alone. */
function planRow({ plan, combination }: Answer, axle: AxleName): WindowRow[] {
  return plan ? [{ name: `plan: ${springOf(combination, axle)}`, ...windowOf(combination, axle) }] : [];
}

/** One row for all combinations with the same spring and the same window on this axle, best rank first. */
export function windowRows(shortlist: readonly Combination[], axle: AxleName): WindowRow[] {
  const groups = new Map<string, { ranks: number[]; spring: string; row: Omit<WindowRow, 'name'> }>();
  for (const combination of shortlist) {
    const spring = springOf(combination, axle);
    const row = windowOf(combination, axle);
    const key = JSON.stringify([spring, row]);
    const group = groups.get(key) ?? { ranks: [], spring, row };
    group.ranks.push(combination.rank);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ ranks, spring, row }) => ({ name: `${rankText(ranks)}: ${spring}`, ...row }));
}

function springOf(combination: Combination, axle: AxleName): string {
  const { spring } = combination.axles[axle].parts;
  const length = inInner(choiceOf(spring, 'free_length_mm'), 'length', PAGE);
  const rate = inInner(choiceOf(spring, 'rate_n_per_mm'), 'rate', PAGE);
  return `${spring.name}, ${length} mm, ${rate} N/mm`;
}

function windowOf(combination: Combination, axle: AxleName) {
  const corner = combination.axles[axle];
  const low = quantityOf(corner.values, 'lowest_height_mm');
  const high = quantityOf(corner.values, 'highest_height_mm');
  const exists = wordOf(corner, 'window') === 'usable' && low !== null && high !== null;
  return {
    window: exists ? { low, high } : null,
    lowLimit: wordOf(corner, 'lowest_height_limit'),
    highLimit: wordOf(corner, 'highest_height_limit'),
  };
}
