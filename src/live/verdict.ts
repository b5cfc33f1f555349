/** Whether the axle on the bench works, in sentences. */
import { thinnestContact } from '../domain/corner/state.ts';
import { findingMessage } from '../domain/messages.ts';
import type { AxleName } from '../domain/scenario.ts';
import { other, type Told } from './told.ts';
import { VERDICT } from './words.ts';

export interface Verdict {
  readonly works: boolean;
  readonly head: string;
  /** One sentence a failing check. */
  readonly lines: readonly string[];
  /** About the other axle; empty where it works. */
  readonly aside: string;
}

export function verdictOf(axle: AxleName, { judged, findings, otherFails }: Told): Verdict {
  const thin = thinnestContact(judged[axle].state);
  const works = findings.length === 0;
  return {
    works,
    head: works ? VERDICT.works(thin.clearance - thin.margin, thin.name) : VERDICT.fails(findings.length),
    lines: findings.map(findingMessage),
    aside: otherFails > 0 ? VERDICT.otherFails(other(axle), otherFails) : '',
  };
}
