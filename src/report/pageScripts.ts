/**
 * The scripts that a page carries: browser code of this folder, each made into one small file by the build. They lie
 * beside the compiled files; a run from source has them made on the spot.
 */
import { readFile } from 'node:fs/promises';

/** What the build's bundler offers. */
interface Bundler {
  readonly bundled: (name: string) => string;
}

const BUNDLER = new URL('../../.ci/bundle.mjs', import.meta.url);
const made = new Map<string, Promise<string>>();

/** The text of a script by its name. Error: there is neither a built script nor a bundler. */
export function pageScript(name: string): Promise<string> {
  const known = made.get(name) ?? builtScript(name);
  made.set(name, known);
  return known;
}

async function builtScript(name: string): Promise<string> {
  try {
    return await readFile(new URL(`./script/${name}.js`, import.meta.url), 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    return scriptFromSource(name);
  }
}

async function scriptFromSource(name: string): Promise<string> {
  try {
    const bundler = (await import(BUNDLER.href)) as Bundler;
    return bundler.bundled(name);
  } catch (error) {
    throw new Error(`The page’s script “${name}” was not built and cannot be made here: run npm run build.`, {
      cause: error,
    });
  }
}
