/** `audit SCENARIO MEASURED`: what was measured on the built unit against what was predicted; `--blank`: a form for it. */

import { lstat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { type Audit, type AuditPages, adopt, audit as auditBuild, blank, drawAudit } from '../../audit/audit.ts';
import type { Measured } from '../../audit/fit/measured.ts';
import { auditSummary } from '../../audit/page/view.ts';
import { isSameCar } from '../../audit/read/adopt.ts';
import { readMeasured } from '../../audit/read/readMeasured.ts';
import { formatProblem } from '../../input/problems/problems.ts';
import { MOST_BYTES } from '../../input/readScenario.ts';
import { regularBytes } from '../../input/source/disk.ts';
import type { Scenario } from '../../model/scenario.ts';
import { mapStrings, visible } from '../../report/text/escape.ts';
import { badInput, EXIT, type ExitCode, failure } from '../terminal/exit.ts';
import { prepareFolder, settleBeside, writeAndSay } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';
import { defaultFolder, nameOf, ownCommand } from '../terminal/places.ts';
import { toolVersion } from '../terminal/version.ts';
import { type Loaded, type LoadOptions, load, warn } from './load.ts';
import { refuseTooMuch } from './sweep.ts';

export interface AuditOptions extends LoadOptions {
  readonly blank?: string;
  readonly adopt?: string | true;
  readonly out?: string;
  readonly force?: boolean;
  /** Combinations from which on the setup whose best was built is not swept. */
  readonly limit?: number;
}

const PAGES: readonly (keyof AuditPages)[] = ['audit.html', 'audit.json'];
const FORM = 'measured.yaml';

export async function audit(path: string, measured: string | undefined, options: AuditOptions): Promise<ExitCode> {
  const checked = await load(path, options);
  if (options.blank !== undefined) {
    if (measured !== undefined || options.adopt !== undefined) throw badInput(say.blankAlone());
    return writeBlank(path, checked.scenario, options.blank, options);
  }
  if (measured === undefined) throw badInput(say.measurementsNeeded());
  return auditMeasured(path, checked, measured, options);
}

async function writeBlank(path: string, scenario: Scenario, name: string, options: AuditOptions): Promise<ExitCode> {
  const { out: folder = defaultFolder(path), force = false } = options;
  const build = buildName(scenario, name);
  refuseLargeSweep(path, scenario, build, options);
  const text = await blank(scenario, build);
  if (text === null) throw badInput(say.notABuild(name));
  await prepareFolder(folder, [FORM], force);
  await writeAndSay(folder, { [FORM]: text }, force, ([form = '']) => say.wroteForm(ownCommand(), form, path));
  return EXIT.ok;
}

/** The best of a setup is found by sweeping that setup. */
function refuseLargeSweep(path: string, scenario: Scenario, build: Measured['build'], { limit }: AuditOptions): void {
  if (build.kind === 'id') return;
  const setups = scenario.setups.filter((setup) => setup.name === build.setup);
  refuseTooMuch(nameOf(path), { scenario: { ...scenario, setups } }, limit);
}

/** A setup's name means its best combination; anything else is an id. */
function buildName(scenario: Scenario, name: string): Measured['build'] {
  const isSetup = scenario.setups.some((setup) => setup.name === name);
  return isSetup ? { kind: 'best', setup: name } : { kind: 'id', id: name };
}

async function auditMeasured(path: string, checked: Loaded, form: string, options: AuditOptions): Promise<ExitCode> {
  await settleBeside(form);
  const read = await readMeasured(form, checked.scenario);
  if (!read.ok)
    throw badInput([...read.problems.map(formatProblem), say.auditProblems(read.problems.length)].join('\n'));
  refuseLargeSweep(path, checked.scenario, read.measured.build, options);
  warn(read.warnings, form);
  const { out: folder = defaultFolder(path), force = false } = options;
  const adopted = options.adopt === undefined ? null : await adoptedPath(path, options.adopt, checked, force);
  await prepareFolder(folder, PAGES, force);
  if (adopted !== null) await prepareFolder(dirname(adopted), [basename(adopted)], force);
  const done = await auditBuild(checked, read, toolVersion());
  if (done === null) throw badInput(say.nothingBuilt());
  const pages = { ...(await drawAudit(done.result)) };
  await writeAndSay(folder, pages, force, (paths) => `${auditSummary(done.result)}${say.wrote(paths)}`);
  if (adopted !== null) await writeAdopted(adopted, checked, done, force);
  return worksAsBuilt(done) ? EXIT.ok : EXIT.nothingWorkable;
}

/** Beside the scenario under a name of its own, unless the scenario itself is named. */
async function adoptedPath(path: string, wanted: string | true, checked: Loaded, force: boolean): Promise<string> {
  const own = basename(path);
  const beside = own.replace(/(\.[^./]*)?$/, '.as-built$1');
  const name = wanted === true ? beside : basename(wanted);
  const target = join(dirname(path), name);
  const elsewhere = wanted !== true && resolve(wanted) !== resolve(target) && wanted !== name;
  if (elsewhere) throw badInput(say.adoptBeside(wanted));
  await refuseOthers(target, checked);
  if (name === own && !force) throw failure(say.adoptOverItself(own, beside));
  return target;
}

/** Only a scenario of the same name and car may make way: no other file, and no link, wherever it leads. */
async function refuseOthers(target: string, { files: [scenario] }: Loaded): Promise<void> {
  const standing = await lstat(target).catch(() => null);
  // A folder is refused wherever files are written.
  if (standing === null || standing.isDirectory()) return;
  const bytes = standing.isFile() ? await regularBytes(target, MOST_BYTES).catch(() => null) : null;
  if (!isSameCar(bytes?.toString('utf8') ?? '', scenario?.text ?? '')) throw failure(say.adoptOverOther(target));
}

async function writeAdopted(target: string, checked: Loaded, done: Audit, force: boolean): Promise<void> {
  const [folder, name] = [dirname(target), basename(target)];
  const outcome = await adopt(checked, done, name);
  if (!outcome.ok) throw badInput(say.notAdopted(outcome.fault));
  const placed = (file: string) => (isAbsolute(file) ? file : join(folder, file));
  const cells = mapStrings(outcome.cells, visible).map((cell) => ({ ...cell, file: placed(cell.file) }));
  const adopted = say.adopted(target, outcome.combination, cells);
  const text = (paths: readonly string[]) => `${say.wrote(paths)}\n${adopted}`;
  // The pages, or another run, may have taken its name meanwhile.
  await writeAndSay(folder, { [name]: outcome.text }, force, text, () => refuseOthers(target, checked));
}

/** Whether every unit, as measured, passes its checks at the target height. */
function worksAsBuilt({ result }: Audit): boolean {
  return result.units.every(({ failures }) => failures.length === 0);
}
