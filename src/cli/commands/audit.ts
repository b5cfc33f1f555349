/** `audit SCENARIO MEASURED`: what was measured on the built unit against what was predicted; `--blank`: a form for it. */
import { basename, dirname, join, resolve } from 'node:path';
import type { Measured } from '../../domain/audit/measured.ts';
import type { Scenario } from '../../domain/scenario.ts';
import type { AdoptedNames } from '../../input/adopt/adopt.ts';
import { readMeasured } from '../../input/measured/readMeasured.ts';
import { formatProblem } from '../../input/problems.ts';
import { adopt } from '../../pipeline/adopt.ts';
import { type Audit, type AuditPages, audit as auditBuild, blank, drawAudit } from '../../pipeline/audit.ts';
import { auditSummary } from '../../report/audit/summary.ts';
import { badInput, EXIT, type ExitCode, failure } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import * as say from '../messages.ts';
import { defaultFolder } from '../places.ts';
import { toolVersion } from '../version.ts';
import { type Loaded, type LoadOptions, load } from './load.ts';

export interface AuditOptions extends LoadOptions {
  readonly blank?: string;
  readonly adopt?: string | true;
  readonly out?: string;
  readonly force?: boolean;
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

async function writeBlank(
  path: string,
  scenario: Scenario,
  name: string,
  { out, force }: AuditOptions,
): Promise<ExitCode> {
  const folder = out ?? defaultFolder(path);
  const text = await blank(scenario, buildName(scenario, name));
  if (text === null) throw badInput(say.notABuild(name));
  await prepareFolder(folder, [FORM], force ?? false);
  const written = await writeFiles(folder, { [FORM]: text });
  process.stdout.write(`${say.wroteForm(written[0] ?? '', path)}\n`);
  return EXIT.ok;
}

/** A setup's name means its best combination; anything else is an id. */
function buildName(scenario: Scenario, name: string): Measured['build'] {
  const isSetup = scenario.setups.some((setup) => setup.name === name);
  return isSetup ? { kind: 'best', setup: name } : { kind: 'id', id: name };
}

async function auditMeasured(
  path: string,
  checked: Loaded,
  measuredPath: string,
  options: AuditOptions,
): Promise<ExitCode> {
  const read = await readMeasured(measuredPath, checked.scenario);
  if (!read.ok)
    throw badInput([...read.problems.map(formatProblem), say.auditProblems(read.problems.length)].join('\n'));
  const folder = options.out ?? defaultFolder(path);
  const force = options.force ?? false;
  const names = options.adopt === undefined ? null : adoptedNames(path, options.adopt, force);
  await prepareFolder(folder, PAGES, force);
  if (names !== null) await prepareFolder(dirname(path), [names.scenario], force);
  const done = await auditBuild(checked, read, toolVersion());
  if (done === null) throw badInput(say.nothingBuilt());
  const written = await writeFiles(folder, { ...(await drawAudit(done.result)) });
  process.stdout.write(`${auditSummary(done.result)}${say.wrote(written)}\n`);
  if (names !== null) await writeAdopted(path, checked, done, names, force);
  return worksAsBuilt(done) ? EXIT.ok : EXIT.nothingWorkable;
}

/** Beside the scenario under names of their own, unless the scenario itself is named. */
function adoptedNames(path: string, wanted: string | true, force: boolean): AdoptedNames {
  const own = basename(path);
  const scenario = wanted === true ? asBuilt(own) : basename(wanted);
  const elsewhere = wanted !== true && resolve(wanted) !== resolve(dirname(path), scenario) && wanted !== scenario;
  if (elsewhere) throw badInput(say.adoptBeside(wanted));
  if (scenario !== own) return { scenario, catalogue: asBuilt };
  if (!force) throw failure(say.adoptOverItself(own, asBuilt(own)));
  return { scenario, catalogue: (name) => name };
}

function asBuilt(name: string): string {
  return name.replace(/(\.[^./]*)?$/, '.as-built$1');
}

async function writeAdopted(
  path: string,
  checked: Loaded,
  done: Audit,
  names: AdoptedNames,
  force: boolean,
): Promise<void> {
  const outcome = await adopt(checked, done, names);
  if (!outcome.ok) throw badInput(say.notAdopted(outcome.fault));
  const folder = dirname(path);
  await prepareFolder(folder, Object.keys(outcome.files), force);
  const written = await writeFiles(folder, outcome.files);
  process.stdout.write(`${say.wrote(written)}\n${say.adopted(join(folder, names.scenario), outcome.combination)}\n`);
}

/** Whether every unit, as measured, passes its checks at the target height. */
function worksAsBuilt({ result }: Audit): boolean {
  return result.units.every(({ failures }) => failures.length === 0);
}
