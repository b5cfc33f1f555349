/** A scenario in which every text field is hostile: walked from the schema, so that none is forgotten. */

/** What no reader may run, obey or lose: markup, a formula, ends of elements, a template, quotes. */
export const HOSTILE_NAME = `=1+1|<img src=x onerror=alert(1)></style></script>{{x}}"'&`;

/** Fields that hold any text; a test holds this list against the schema. */
export const FREE_FIELDS = ['name', 'description'];

export interface HostileScenario {
  readonly tree: unknown;
  /** Where a text was exchanged: `axles.front.dampers.0.name`. */
  readonly places: readonly string[];
}

/** Every free text of a scenario exchanged for a hostile one that is still unique. */
export function withHostileNames(tree: unknown): HostileScenario {
  const places: string[] = [];
  const walk = (value: unknown, path: readonly string[]): unknown => {
    if (Array.isArray(value)) return value.map((item, k) => walk(item, [...path, String(k)]));
    if (typeof value === 'object' && value !== null) {
      return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, walk(item, [...path, key])]));
    }
    return typeof value === 'string' && isFree(path) ? exchanged(path) : value;
  };
  const exchanged = (path: readonly string[]) => {
    places.push(path.join('.'));
    return `${HOSTILE_NAME}${places.length}`;
  };
  return { tree: walk(tree, []), places };
}

/** Names and descriptions; a setup's name is part of every id and has its own narrow alphabet. */
function isFree(path: readonly string[]): boolean {
  const isSetup = path[0] === 'setups' && path.length === 3;
  return FREE_FIELDS.includes(path.at(-1) ?? '') && !isSetup;
}
