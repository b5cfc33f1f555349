/** Where things go when nobody says. */
import { basename, dirname, join, resolve } from 'node:path';

/** A scenario's own name, or its folder's where the file is called `scenario`. */
export function nameOf(path: string): string {
  const stem = basename(path).replace(/\.ya?ml$/i, '');
  return stem === 'scenario' ? basename(dirname(resolve(path))) : stem;
}

export function defaultFolder(path: string): string {
  return join('out', nameOf(path));
}
