/** The packages a user installs along with the program, read from the lock file. */
import { readFileSync } from 'node:fs';

/** Licences that ask for no more than their own text to be passed on. */
export const LICENCES: readonly string[] = [
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  '0BSD',
  'Unlicense',
];

export interface InstalledPackage {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
}

interface Locked {
  readonly version: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly link?: boolean;
}

export function productionPackages(): readonly InstalledPackage[] {
  const lock = JSON.parse(readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8')) as {
    readonly packages: Readonly<Record<string, Locked>>;
  };
  return Object.entries(lock.packages)
    .filter(([path, { dev, link }]) => path !== '' && dev !== true && link !== true)
    .map(([path, { version, license }]) => ({
      name: path.replace(/^.*node_modules\//, ''),
      version,
      licence: license ?? 'none stated',
    }));
}
