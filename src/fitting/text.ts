/** The answer of the bench for a terminal. */
import type { BenchScenario } from '../model/scenario.ts';
import { mapStrings, visible } from '../report/text/escape.ts';
import { hanging } from '../report/text/hanging.ts';
import { PLAIN } from '../report/text/numbers.ts';
import type { AxleFitting } from './fitting.ts';
import { rulerText } from './ruler.ts';
import { answerLines, balanceText, choiceTextOf, countText, verdictLine } from './words.ts';

const LEAD = 20;

export function fittingText({ name }: Pick<BenchScenario, 'name'>, fittings: readonly AxleFitting[]): string {
  const blocks = fittings.map((fitting) => axleBlock(mapStrings(fitting, visible)));
  const balance = balanceText(fittings, PLAIN);
  return `${[visible(name), ...blocks, ...(balance === null ? [] : [balance])].join('\n\n')}\n`;
}

/** One axle; where several combinations were judged, how many fit and which is the best. */
export function axleBlock(fitting: AxleFitting): string {
  const [best] = fitting.best;
  const several = fitting.combinations > 1 && best !== undefined;
  const rows = [
    ...hanging('', verdictLine(fitting, PLAIN)),
    ...(several ? row('combinations', countText(fitting, PLAIN)) : []),
    ...(several
      ? row(
          best.verdict === 'fails' ? 'nearest' : 'best',
          choiceTextOf(fitting.bench.options, best.judgement.state.corner, PLAIN),
        )
      : []),
    ...answerLines(fitting, PLAIN).flatMap(({ about, text }) => row(about, text)),
  ];
  const [bar, ends, ...legend] = best === undefined ? [] : rulerText(best.state);
  const ruler = [bar, ends, ...legend.flatMap((text) => hanging('', text.trim()))].filter((text) => text !== undefined);
  return [...rows, '', ...ruler].join('\n');
}

function row(about: string, text: string): string[] {
  return hanging(`  ${about}`.padEnd(LEAD), text);
}
