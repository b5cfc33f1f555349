/**
 * Which browser the browser tests start, and with which environment.
 *
 * `npm ci` alone must be enough, as root and with no system package: `@sparticuz/chromium` carries a compressed headless
 * Chromium for Linux x64, the few shared libraries a bare Linux lacks (nss, nspr, expat) and one typeface. On any other
 * system, or to test with another build, `SPRINGSIFT_BROWSER` names an installed Chromium or Chrome.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

export interface BrowserChoice {
  readonly executable: string;
  /** Added to the environment of the browser only. */
  readonly environment: Readonly<Record<string, string>>;
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CACHE = join(ROOT, 'node_modules', '.cache', 'springsift');
const PACKAGE = join(ROOT, 'node_modules', '@sparticuz', 'chromium', 'package.json');

export async function chooseBrowser(): Promise<BrowserChoice> {
  const named = process.env.SPRINGSIFT_BROWSER;
  if (named) return namedBrowser(named);
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      `The bundled Chromium runs on Linux x64 only, this is ${process.platform} ${process.arch}: ` +
        'set SPRINGSIFT_BROWSER to the path of an installed Chromium or Chrome.',
    );
  }
  return bundledBrowser();
}

function namedBrowser(executable: string): BrowserChoice {
  if (!existsSync(executable)) throw new Error(`SPRINGSIFT_BROWSER names ${executable}, which does not exist.`);
  return { executable, environment: {} };
}

async function bundledBrowser(): Promise<BrowserChoice> {
  const { version } = JSON.parse(await readFile(PACKAGE, 'utf8')) as { version: string };
  const folder = join(CACHE, `chromium-${version}`);
  if (!existsSync(folder)) await unpack(folder);
  return {
    executable: join(folder, 'chromium'),
    environment: {
      // Always the bundled libraries and typeface, also where the system has its own: the same page on every machine.
      LD_LIBRARY_PATH: join(folder, 'al2023', 'lib'),
      FONTCONFIG_FILE: await writeFontConfiguration(folder),
    },
  };
}

/**
 * Unpacks beside the final folder and moves it there whole: a run that was broken off leaves no half browser behind, and
 * of two runs that start together the second finds the folder taken and drops its own copy.
 */
async function unpack(folder: string): Promise<void> {
  await mkdir(CACHE, { recursive: true });
  const workshop = await mkdtemp(join(CACHE, 'unpacking-'));
  try {
    await unpackInto(workshop);
    await rename(workshop, folder).catch((error: unknown) => {
      if (!existsSync(folder)) throw error;
    });
  } finally {
    await rm(workshop, { recursive: true, force: true });
  }
}

/**
 * The package unpacks into the system's temporary folder, and adds the shared libraries only where it believes to be on
 * the cloud service it was made for. Both are read from the environment, so a process of its own gets one that says so.
 */
async function unpackInto(folder: string): Promise<void> {
  const script = `import chromium from '@sparticuz/chromium'; await chromium.executablePath();`;
  await promisify(execFile)(process.execPath, ['--input-type=module', '--eval', script], {
    cwd: ROOT,
    env: { ...process.env, TMPDIR: folder, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' },
  });
}

/** The package's own font configuration names folders of that cloud service. */
async function writeFontConfiguration(folder: string): Promise<string> {
  const file = join(folder, 'fonts.xml');
  const lines = [
    '<?xml version="1.0"?>',
    '<!DOCTYPE fontconfig SYSTEM "fonts.dtd">',
    `<fontconfig><dir>${join(folder, 'fonts')}</dir><cachedir>${join(folder, 'font-cache')}</cachedir></fontconfig>`,
  ];
  await writeFile(file, `${lines.join('\n')}\n`);
  return file;
}
