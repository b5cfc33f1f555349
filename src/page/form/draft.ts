/** What is being filled in: the texts of a scenario and of its catalogues, as they would lie in a folder. */

export interface Draft {
  readonly scenario: string;
  /** By the name that the scenario calls each. */
  readonly catalogues: Readonly<Record<string, string>>;
}

export const SCENARIO_NAME = 'scenario.yaml';

export function filesOf({ scenario, catalogues }: Draft): readonly { readonly path: string; readonly text: string }[] {
  return [
    { path: SCENARIO_NAME, text: scenario },
    ...Object.entries(catalogues).map(([path, text]) => ({ path, text })),
  ];
}

/** A draft from what was stored or packed; null for anything else. */
export function draftIn(data: unknown): Draft | null {
  if (typeof data !== 'object' || data === null) return null;
  const { scenario, catalogues } = data as Partial<Record<string, unknown>>;
  if (typeof scenario !== 'string' || typeof catalogues !== 'object' || catalogues === null) return null;
  const isText = Object.values(catalogues).every((text) => typeof text === 'string');
  return isText ? { scenario, catalogues: catalogues as Record<string, string> } : null;
}
