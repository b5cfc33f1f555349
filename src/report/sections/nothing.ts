/** Where nothing works: the nearest build drawn, with what it lacks; the change that helps most; what passes all the same. */
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { CornerReport, NothingWorks, Result, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import {
  CLOSENESS,
  changesOf,
  changeText,
  giveInText,
  isEmpty,
  lackAmount,
  lacksOf,
  nearestText,
  thenText,
} from '../text/adviceText.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { choiceOf, nameOf } from '../text/parts.ts';
import { cornerView } from './corner.ts';
import { drawnCorner } from './drawing.ts';

export const nothing = section({
  id: 'nothing',
  link: 'The nearest',
  title: 'Nothing works: what comes nearest, and what helps',
  view: ({ result }) => ofSetups(result.setups.map((setup) => nothingView(result, setup))),
  prints: true,
  leaves: null,
});

/** Null where the setup has an answer, or nobody looked for what comes nearest. */
export function nothingView({ mode }: Pick<Result, 'mode'>, setup: SetupResult) {
  const { nothing: found, name } = setup;
  if (found === undefined) return null;
  const changes = changesOf(found);
  return {
    setup: name,
    id: found.nearest.id,
    closeness: CLOSENESS,
    /** A given build is drawn where every other answer is. */
    isBuild: mode === 'build',
    lead: nearestText(found),
    lacks: lacksOf(found).map((lack) => ({
      letter: CHECK[lack.check].letter,
      where: lack.axle === null ? 'Both' : AXLE_TITLES[lack.axle],
      check: CHECK[lack.check].label,
      message: lack.message,
      amount: lackAmount(lack, PAGE),
    })),
    drawn: drawnAxles(found).map((axle) => drawnCorner(setup, axle, found.nearest.axles[axle], true)),
    changes: changes.map(({ axle, change }) => ({
      title: AXLE_TITLES[axle],
      done: changeText(change, PAGE),
      parts: change.parts,
      after: thenText(axle, change, PAGE),
    })),
    giveIn: giveInText(setup, PAGE),
    passing: AXLE_NAMES.filter((axle) => !isEmpty(found.axles[axle])).map((axle) => passingView(setup, found, axle)),
  };
}

/** Those that lack something; where only the pair does, both. */
function drawnAxles({ nearest: { axles } }: NothingWorks): readonly AxleName[] {
  const lacking = AXLE_NAMES.filter((axle) => axles[axle].failures.length > 0);
  return lacking.length > 0 ? lacking : AXLE_NAMES;
}

/** An axle that passes, in full: drawn, with its best combinations. */
function passingView(setup: SetupResult, found: NothingWorks, axle: AxleName) {
  const { passing } = found.axles[axle];
  const corners = passing.map(({ corner }) => corner);
  const some = (test: (parts: CornerReport['parts']) => boolean) => corners.some(({ parts }) => test(parts));
  return {
    axle,
    basis: setup.frequency_basis,
    passed: String(setup.axles[axle].passed),
    combinations: String(setup.axles[axle].combinations),
    hasHelper: some(({ helper }) => nameOf(helper) !== null),
    hasCut: some(({ sleeve }) => choiceOf(sleeve, 'trim_mm') > 0),
    hasSpacer: some(({ mount }) => choiceOf(mount, 'spacer_mm') > 0),
    rows: passing.map(({ score, corner }, k) => ({
      rank: String(k + 1),
      id: corner.id,
      score: fixed(score, 3, PAGE),
      corner: cornerView(setup, axle, corner),
    })),
    drawn: drawnAxles(found).includes(axle) ? null : drawnCorner(setup, axle, found.nearest.axles[axle]),
  };
}
