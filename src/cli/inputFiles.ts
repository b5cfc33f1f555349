/** Where the inputs that a report carries are written, so that none of them leaves the folder. */
import { posix } from 'node:path';
import type { InputFile } from '../domain/result.ts';

const FOLDER = 'inputs';

export type InputFiles =
  | { readonly files: Readonly<Record<string, string>> }
  /** A path that would lead elsewhere, or to the place of another file. */
  | { readonly unsafe: string };

/** The inputs in a folder of their own, by their paths there. */
export function inputFiles(inputs: readonly Pick<InputFile, 'path' | 'text'>[]): InputFiles {
  const files = new Map<string, string>();
  const taken = new Set<string>();
  for (const { path, text } of inputs) {
    const name = posix.normalize(path);
    // Many disks take names for the same that differ in capitals only.
    const key = name.toLowerCase();
    if (!isInside(name) || taken.has(key)) return { unsafe: path };
    taken.add(key);
    files.set(posix.join(FOLDER, name), text);
  }
  return { files: Object.fromEntries(files) };
}

function isInside(name: string): boolean {
  if (posix.isAbsolute(name) || name === '..' || name.startsWith('../')) return false;
  // What other systems take for a drive or a folder, and what no name holds; then names of folders.
  return !/[\\:\p{Cc}]/u.test(name) && name !== '.' && !name.endsWith('/');
}
