/** A private copy of the project to mutate in: the working tree is never touched. */
import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from '../setup/source-tree.ts';

/** Everything that tests read. */
const COPIED = ['.ci', 'src', 'test', 'scenarios', 'README.md', 'DEVELOPERS.md', 'package.json', 'tsconfig.json'];

export interface Copy {
  readonly root: string;
  readonly remove: () => void;
}

/** Outside node_modules, because what lies inside is not transformed by the test runner. */
export function copyProject(): Copy {
  const root = mkdtempSync(join(tmpdir(), 'springsift-mutate-'));
  for (const name of COPIED) cpSync(join(ROOT, name), join(root, name), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'), 'dir');
  return { root, remove: () => rmSync(root, { recursive: true, force: true }) };
}
