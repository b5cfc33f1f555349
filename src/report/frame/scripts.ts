/** The scripts that a page carries: browser code of `src/page`, each made into one small file by the build. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** `dist` lies three folders up, from the sources and from the compiled files. */
const BUILT = fileURLToPath(new URL('../../../dist/page/', import.meta.url));

/** The text of a script by its name. Error: it was not built. */
export async function pageScript(name: string): Promise<string> {
  // While browser tests measure coverage, a folder with the same scripts before they are made short.
  const folder = process.env.SPRINGSIFT_READABLE_SCRIPTS ?? BUILT;
  try {
    return await readFile(join(folder, `${name}.js`), 'utf8');
  } catch (cause) {
    throw new Error(`The page’s script “${name}” was not built: run npm run build.`, { cause });
  }
}
