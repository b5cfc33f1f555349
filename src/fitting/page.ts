/** The page of parts on the bench: the answer, drawn, the best of the combinations, and what it rests on. */
import { thinnestOnBench } from '../model/corner/bench.ts';
import { limitLabel } from '../model/corner/checks.ts';
import type { BenchScenario, InputWarning } from '../model/scenario.ts';
import { drawChart } from '../report/charts/draw.ts';
import { possibleChart } from '../report/charts/possible.ts';
import { glossaryDrawing } from '../report/drawing/glossary.ts';
import { renderPage } from '../report/frame/templates.ts';
import { cautionViews } from '../report/text/cautions.ts';
import { mapStrings, visibleInPage } from '../report/text/escape.ts';
import { glossaryViews } from '../report/text/glossary.ts';
import { AXLE_TITLES } from '../report/text/labels.ts';
import { count, fixed, PAGE } from '../report/text/numbers.ts';
import { measure } from '../report/text/parts.ts';
import { takesText } from '../report/text/settling.ts';
import type { InputFile } from '../result/result.ts';
import { benchDrawing } from './drawing.ts';
import type { AxleFitting, Fitted } from './fitting.ts';
import { answerLines, balanceText, choiceTextOf, countText, restsInShort, verdictLine } from './words.ts';
import { CHANGES } from './wouldFit.ts';

export interface FittingPage {
  readonly scenario: BenchScenario;
  readonly files: readonly InputFile[];
  readonly warnings: readonly InputWarning[];
  readonly fittings: readonly AxleFitting[];
  readonly toolVersion: string;
}

export async function fittingHtml(given: FittingPage): Promise<string> {
  const { scenario, files, warnings, fittings, toolVersion } = mapStrings(given, visibleInPage);
  const axles = [];
  // One after the other: drawing numbers its definitions from a shared counter.
  for (const fitting of fittings) axles.push(await axleView(fitting));
  return renderPage('fitting', {
    title: scenario.name,
    description: scenario.description,
    warnings: warnings.map(({ file, line, column, ...said }) => ({ place: `${file}:${line}:${column}`, ...said })),
    axles,
    balance: balanceText(fittings, PAGE),
    assumptions: scenario.assumptions,
    files,
    glossary: { picture: glossaryDrawing(), words: glossaryViews() },
    cautions: cautionViews(),
    toolVersion,
  });
}

async function axleView(fitting: AxleFitting) {
  const { axle, best, level, settlings, bench } = fitting;
  const [first] = best;
  return {
    axle,
    title: AXLE_TITLES[axle],
    verdict: verdictLine(fitting, PAGE),
    isAlert: first?.verdict === 'fails',
    rests: restsInShort(fitting),
    count: countText(fitting, PAGE),
    choice: first ? choiceTextOf(bench.options, first.judgement.state.corner, PAGE) : '',
    lines: answerLines(fitting, PAGE),
    svg: first ? benchDrawing(first.state, `${AXLE_TITLES[axle]} corner on the bench, to scale`) : '',
    isCorner: level === 'corner',
    map: await mapOf(fitting),
    drawn: count(fitting.possible.length, PAGE),
    would: fitting.would?.springs.map(({ freeLength, tallest }) => ({
      freeLength: measure(freeLength, 'length'),
      ...Object.fromEntries(CHANGES.map((change) => [change, measure(tallest[change], 'length')])),
    })),
    isSeveral: best.length > 1,
    rows: best.map((one, k) => rowView(fitting, one, k + 1)),
    settlings: settlings.slice(0, 8).map(({ label, how, field, share, isAssumed, ...takes }) => ({
      ...{ label, how, field, isAssumed, takes: takesText(takes) },
      share: `${fixed(100 * share, 0, PAGE)} %`,
    })),
  };
}

function mapOf({ possible }: AxleFitting) {
  if (possible.length < 2) return null;
  const builds = possible.map(({ low, middle, high }, k) => ({
    ...{ low: low.height, high: high.height, frequency: middle.frequency },
    isBest: k === 0,
  }));
  return drawChart(possibleChart(builds));
}

function rowView({ bench }: AxleFitting, { verdict, state, wheel, judgement }: Fitted, rank: number) {
  const thin = thinnestOnBench(state);
  return {
    rank,
    choice: choiceTextOf(bench.options, judgement.state.corner, PAGE),
    verdict: { works: 'fits', depends: 'depends', fails: 'fails' }[verdict],
    low: measure(Number.isFinite(state.low.perch) ? state.low.perch : null, 'length'),
    high: measure(Number.isFinite(state.high.perch) ? state.high.perch : null, 'length'),
    range: measure(Number.isFinite(state.range) ? state.range : null, 'length'),
    ends: `${limitLabel(state.low.limit)}; ${limitLabel(state.high.limit)}`,
    thinnest: measure(thin.clearance - thin.margin, 'length'),
    lowHeight: measure(wheel?.low.height ?? null, 'length'),
    highHeight: measure(wheel?.high.height ?? null, 'length'),
    frequency: fixed(wheel?.middle.frequency, 2, PAGE),
  };
}
