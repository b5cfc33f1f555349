/** The best plan over several setups, before and after. */
import type { PlanRecord, Result } from '../../domain/result.ts';
import { combinationOf, springsOf } from '../planParts.ts';
import { type AmountView, amountView } from './amount.ts';

export interface PlanChangeView {
  readonly verdict: string;
  readonly rows: readonly { readonly label: string; readonly before: string; readonly after: string }[];
  readonly amounts: readonly AmountView[];
}

/** Null where neither report looked for a plan. */
export function planChangeView(before: Result, after: Result): PlanChangeView | null {
  if (!before.plans && !after.plans) return null;
  const [was, is] = [before.plans?.plans[0] ?? null, after.plans?.plans[0] ?? null];
  return {
    verdict: verdictOf(before, after, was, is),
    rows: [
      { label: 'plan', before: was?.id ?? 'none', after: is?.id ?? 'none' },
      ...springRows(before, after, was, is),
    ],
    amounts: [
      amountView('score (0 to 1)', 'ratio', was?.score, is?.score),
      amountView(`price of all parts`, 'money', was?.price, is?.price),
      amountView(`of it springs and helpers`, 'money', was?.springs_price, is?.springs_price),
    ],
  };
}

function verdictOf(before: Result, after: Result, was: PlanRecord | null, is: PlanRecord | null): string {
  if (!before.plans) return 'Only the second report looked for one build for all setups.';
  if (!after.plans) return 'Only the first report looked for one build for all setups.';
  if (was === null && is === null) return 'No one build works in every setup, before and after.';
  if (was === null) return 'Before, no one build worked in every setup; now one does.';
  if (is === null) return 'Before, one build worked in every setup; now none does.';
  const same = springsIn(before, was) === springsIn(after, is);
  return same ? 'The same springs win.' : 'Other springs win.';
}

function springRows(before: Result, after: Result, was: PlanRecord | null, is: PlanRecord | null) {
  const names = [...new Set([was, is].flatMap((plan) => plan?.setups.map(({ setup }) => setup) ?? []))];
  return names.map((setup) => ({
    label: `springs, setup ${setup}`,
    before: springsFor(before, was, setup),
    after: springsFor(after, is, setup),
  }));
}

function springsFor(result: Result, plan: PlanRecord | null, setup: string): string {
  const part = plan?.setups.find((one) => one.setup === setup);
  return part ? springsOf(combinationOf(result, part)) : 'none';
}

function springsIn(result: Result, { setups }: PlanRecord): string {
  return setups.map((part) => springsOf(combinationOf(result, part))).join('; ');
}
