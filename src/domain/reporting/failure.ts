/** A finding of the model as a record a person can read. */
import type { Finding } from '../corner/findings.ts';
import { findingMessage, unitOfCheck } from '../messages.ts';
import type { Failure } from '../result.ts';

export function failureOf(finding: Finding): Failure {
  const shortfall = Number.isFinite(finding.shortfall) ? finding.shortfall : null;
  return { check: finding.check, message: findingMessage(finding), shortfall, unit: unitOfCheck(finding.check) };
}
