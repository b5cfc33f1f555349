/** Every sentence the command line says of its own. */
import type { AdoptFault } from '../../audit/audit.ts';
import type { CellToEnter } from '../../audit/read/adopt.ts';
import { megabytes } from '../../input/problems/file.ts';
import type { Assumption, Family } from '../../model/scenario.ts';
import type { Step } from '../../model/steps.ts';
import { visible } from '../../report/text/escape.ts';
import { hanging } from '../../report/text/textWidth.ts';
import type { JoinFault } from '../../sweep/joinFault.ts';
import type { LimitFault } from '../../sweep/limits.ts';
import type { Progress } from '../../sweep/sweep.ts';

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'a file of that name stands there',
  ENOENT: 'part of the path does not exist',
  EPERM: 'not allowed',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'the file would be too large for this disk',
  EIO: 'the disk does not work properly',
  ELOOP: 'the path is a link that leads in a circle',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'the path is too long',
  EXDEV: 'the files lie on different disks',
};

/** What went wrong with the disk, as its code or else in its own words. */
export const codeOf = (error: unknown) => (error as NodeJS.ErrnoException).code ?? String(error);

/** A path as it is typed: in quotes where it holds more than letters, digits and signs that no shell minds. */
export function forShell(path: string): string {
  return visible(/^[\w./\\:@%+=,~-]+$/.test(path) ? path : `"${path.replace(/["$`]/g, '\\$&')}"`);
}

export const filesInTheWay = (folder: string, names: readonly string[]) =>
  `${visible(folder)} already holds ${visible(names.join(', '))}. Name another folder with --out, or say --force to replace them.`;
export const foldersInTheWay = (folder: string, names: readonly string[]) =>
  `In ${visible(folder)} a folder stands where a file belongs: ${visible(names.join(', '))}. Name another folder with --out, or move it away.`;
export const cannotWrite = (folder: string, code: string) =>
  `Cannot write to ${visible(folder)}: ${REASONS[code] ?? code}. Nothing was changed there.`;
export const linkInTheWay = (folder: string, path: string) =>
  `In ${visible(folder)} a link stands where a folder belongs: ${visible(path)}. What it leads to is left alone. Name another folder with --out, or take the link away.`;
export const notAllInPlace = (folder: string, code: string) =>
  `The new files of ${visible(folder)} are on the disk, but not all could be put into place: ${REASONS[code] ?? code}. Old and new stand side by side there until the next run, which puts the rest into place.`;
export const cannotFinish = (folder: string, code: string) =>
  `An earlier run was ended while it put its files into place in ${visible(folder)}, and that cannot be finished: ${REASONS[code] ?? code}.`;
export const folderBusy = (folder: string, pid: string) =>
  `Process ${pid} has been writing into ${visible(folder)} for a long time. Nothing was changed. Wait for it or end it, then try again.`;
export const folderClaimed = (folder: string, pid: string) =>
  `Process ${pid} is at work on the same files of ${visible(folder)}. Wait for it, name another folder with --out, or say --force to write them all the same.`;
export const stoppedAtOnce = () => 'Stopped. Nothing was written.';
export const stoppedAfterWriting = () => 'Stopped. What is said above to be written was written, and nothing else.';
export const folderNotEmpty = (folder: string) =>
  `${visible(folder)} is not empty. Name a new folder, or say --force to write the starter files into it.`;
export const badOption = (option: string, { form, example, meaning }: OptionForm, found: string) =>
  `--${option}: found ${found}\n  expected: ${form}: ${meaning}\n  advice: write --${option} "${example}" with your own numbers`;
export const optionProblem = (option: string | null, found: string, expected: string, advice: string) =>
  `${option === null ? 'the question' : `--${option}`}: found ${found}\n  expected: ${expected}\n  advice: ${advice}`;
interface OptionForm {
  readonly form: string;
  readonly meaning: string;
  readonly example: string;
}
export const needsCar = (path: string) =>
  `${visible(path)} holds parts on the bench: no car, no setups. check and sweep judge those; for this command add \`car\` and \`setups\`, and both axles whole.`;
export const checkedBench = (name: string, axles: readonly string[]) =>
  `${name}: no problems. ${axles.join('; ')}. Parts are judged among themselves, without wishes.`;
export const tooManyOnBench = (axle: string, count: string, most: string) =>
  `The ${axle} axle has ${count} combinations of parts; up to ${most} are judged. Narrow the ranges.`;
export const cannotPrint = (code: string) => `Cannot print: ${REASONS[code] ?? code}.`;
export const tooFewHandles = () =>
  'Too many files are open at once. Nothing more was written. Allow more with ulimit -n 1024, or end programs that hold files open; then run it again.';
export const tooFewThreads = () =>
  'The machine gives no more threads. Nothing more was written. Use fewer with --workers 1, end other programs, or allow more with ulimit -u; then run it again.';
export const folderGone = () =>
  'The folder this was started in is gone. Change to a folder that exists, and run it again.';
export const pathTooLong = () =>
  'A path is too long for this system. Use shorter names, or folders that lie less deep.';
export const problemCount = (count: number) =>
  count === 1 ? '1 problem. Nothing was swept.' : `${count} problems. Nothing was swept.`;
export const moreProblems = (count: number, command: string, path: string) =>
  `and ${whole(count)} more; all of them: ${command} check ${forShell(path)} --all`;
export const aboutPassing = () =>
  'Lines behind `passes` were tried: that problem is gone with them. A value in them is an example; what you measured goes in its place.';
export const warningCount = (count: number) =>
  count === 1
    ? '1 warning: the figure is taken as it stands.'
    : `${count} warnings: the figures are taken as they stand.`;

export function notAnId(text: string, reason: 'form' | 'check' | 'setup' | 'index'): string {
  const form = 'An id looks like low-F4F7-R2KD-7Q: copy it from the report, the CSV or the terminal.';
  if (reason === 'form') return `'${visible(text)}' is not an id. ${form}`;
  if (reason === 'setup') return `'${visible(text)}' names a setup that this scenario does not have.`;
  return `'${visible(text)}' does not belong to this scenario: it was mistyped, or the parts have changed since. Sweep again for new ids.`;
}

export const nothingToCheck = () =>
  'Name a scenario to check, or say --explain-checks for what a sweep asks of every combination.';
export const noField = (path: string) =>
  `No field '${visible(path)}'. A path is written like axles.front.springs; springsift fields lists them all.`;

/** The rear axle, and its targets, have the fields of the front. */
export function fieldsOf(path: string): string {
  if (path === '') return 'top level';
  return /(^|\.)front/.test(path) ? `${visible(path)}, and the same of the rear` : path;
}

/** What was taken for what nobody knows, a line each. */
export function assumedLines(assumptions: readonly Assumption[]): string[] {
  return assumptions.flatMap(({ field, value, source }) =>
    hanging('  assumed  ', `${visible(field)}: ${value.replace(', assumed:', ',')} (${source})`),
  );
}

export function checked(
  name: string,
  front: number,
  rear: number,
  setups: readonly string[],
  isBuild: boolean,
): string {
  const named = `${setups.length} ${setups.length === 1 ? 'setup' : 'setups'} (${setups.join(', ')})`;
  if (isBuild) return `${visible(name)}: no problem. One given build, ${named}.`;
  const pairs = front * rear;
  return [
    `${visible(name)}: no problem.`,
    `  front  ${whole(front)} combinations`,
    `  rear   ${whole(rear)} combinations`,
    `  ${named}: ${whole((front + rear) * setups.length)} corners to judge, up to ${whole(pairs)} pairs a setup`,
  ].join('\n');
}

export const wrote = (paths: readonly string[]) => paths.map((path) => `wrote ${visible(path)}`).join('\n');
/** @param next what to do with the files; @param command what starts the program */
const startedWith = (next: string) => (command: string, folder: string, files: readonly string[]) =>
  [
    `Wrote ${visible(files.join(', '))} to ${visible(folder)}.`,
    next,
    `  ${command} check ${forShell(`${folder}/scenario.yaml`)}`,
    `  ${command} sweep ${forShell(`${folder}/scenario.yaml`)} --out ${forShell(`${folder}/out`)}`,
  ].join('\n');

export const started = startedWith('The values are invented. Replace them with what you measured, then:');
export const startedBench = startedWith(
  'Open measure.html: it takes what you measure and saves the file, or is printed. What may stay unknown says so. Then:',
);

export const takenForSpring = (taken: string) => `Taken: ${taken}.`;

/** Whole number in groups of three, the same in every locale. */
export const whole = (value: number) => String(value).replace(/\B(?=(\d{3})+$)/g, ',');

/** One line: how far, how fast, how long still. */
export function progress(name: string, { judged, of, workable, best }: Progress, seconds: number): string {
  const share = of > 0 ? judged / of : 1;
  const rate = seconds > 0 ? judged / seconds : 0;
  const left = rate > 0 ? (of - judged) / rate : Number.NaN;
  const millions = `${(rate / 1e6).toFixed(1)} million/s`;
  const found = best === null ? 'none works so far' : `${whole(workable)} work so far, best corner ${best.toFixed(3)}`;
  return `${visible(name)}: ${(100 * share).toFixed(0)} % of ${whole(of)}, ${millions}, ${duration(left)} left, ${found}`;
}

/** What is worked out after the sweep. */
export function step(name: string, { what, done, of }: Step, seconds: number): string {
  const left = done > 0 ? (seconds * (of - done)) / done : Number.NaN;
  return `${visible(name)}: swept; ${what}: ${whole(done)} of ${whole(of)}, ${duration(left)} left`;
}

function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return 'unknown time';
  return seconds < 90 ? `${Math.ceil(seconds)} s` : `${Math.ceil(seconds / 60)} min`;
}

export function stopped(judged: number, of: number, allowPartial: boolean): string {
  const hint = allowPartial ? '; --keep-partial would have written what was found' : '';
  return `Stopped after ${whole(judged)} of ${whole(of)} combinations. Nothing was written${hint}.`;
}

export const workerLost = (reason: string) =>
  [
    `A worker thread ended before its work was done: ${reason}. Nothing was written.`,
    'If memory ran out, use fewer threads with --workers, narrow the ranges, or share the sweep out with --shard.',
  ].join('\n');

/** Which families multiply to so much, and what can be done. */
export function tooMuch(name: string, { kind, count, most, families }: LimitFault): string {
  const all = kind === 'combinations';
  const what = all ? 'combinations over both axles and all setups' : 'combinations of parts that are held at once';
  const largest = families.map(({ axle, family, count: of }) => `${axle} ${LISTS[family]}: ${whole(of)}`);
  return [
    `${visible(name)} holds ${roughly(count)} ${what}; at most ${roughly(most)} are taken on. Nothing was swept.`,
    `Narrow the largest lists, with fewer values or larger steps: ${largest.join('; ')}.`,
    ...(all ? [`If all of them are wanted, say so with --limit 1e${Math.ceil(Math.log10(count))}.`] : []),
  ].join('\n');
}

/** The part lists as a scenario spells them. */
const LISTS: Readonly<Record<Family, string>> = {
  damper: 'dampers',
  mount: 'mounts',
  isolator: 'isolators',
  bumpStop: 'bump_stops',
  rodEnd: 'rod_ends',
  sleeve: 'sleeves',
  perch: 'perches',
  helper: 'helpers',
  spring: 'springs',
};

const roughly = (count: number) => (count < 1e15 ? whole(count) : `about ${count.toExponential(1).replace('e+', 'e')}`);

export const notALimit = (text: string) =>
  `--limit takes a number of combinations such as 5e12, not '${visible(text)}'.`;
export const notWithShares = () =>
  '--shard goes with neither --rank-by nor --keep-partial: a part holds counts and candidates, and merge needs it whole. Give --rank-by to merge.';
export const notWorkers = (text: string) => `--workers takes a whole number from 1 to 256, not '${visible(text)}'.`;
export const sameFolder = (folder: string) =>
  `Two of the scenarios would write to ${visible(folder)}. Give their files or folders different names.`;
export const notAShare = (text: string) =>
  `--shard takes a part and a count such as 3/8 (the third of eight), not '${visible(text)}'.`;
export const tooManyShares = (text: string, most: number) =>
  `--shard ${visible(text)}: at most ${whole(most)} parts. Take fewer, each of which sweeps more.`;
export const unreadablePart = (path: string, why: string) =>
  `${visible(path)} cannot be read: ${REASONS[why] ?? why}. merge takes the part files that sweep --shard wrote.`;
export const notAPart = (file: string, folder: string, version: string) =>
  `${visible(file)} in ${visible(folder)} is no part of a sweep by springsift ${version}. Sweep that part again with --shard.`;

export function doesNotJoin(fault: JoinFault, paths: readonly string[] = []): string {
  if (fault.kind === 'unsound') {
    const { place, where, what } = fault;
    return `${paths[place]}: found a part that is wrong at ${visible(where)}: ${visible(what)}. Sweep that part again with --shard.`;
  }
  if (fault.kind === 'missing') return `Missing: ${fault.parts.map((n) => `part ${n}`).join(', ')}. Give all parts.`;
  return `Part ${fault.part} ${DOES_NOT_JOIN[fault.kind]}`;
}

const DOES_NOT_JOIN: Readonly<Record<Exclude<JoinFault['kind'], 'missing' | 'unsound'>, string>> = {
  'other scenario': 'belongs to another scenario, or to this one before it was changed. Sweep it again.',
  'other count': 'was cut for another number of parts. All parts must come from the same cut.',
  twice: 'is given twice.',
};

export const shardsOneScenario = () => '--shard takes one scenario at a time.';

export const largePage = (name: string, bytes: number) =>
  `${visible(name)} has ${megabytes(bytes)}: it may be slow on a phone and too large for some mail. Fewer setups, springs or a smaller ranking.keep make it smaller.`;
export const hugePage = (name: string, bytes: number, most: number) =>
  `${visible(name)} would have ${megabytes(bytes)}, more than ${megabytes(most)}. Nothing was written. Sweep fewer setups at a time, shorten the catalogues or lower ranking.keep; or say --force to write it all the same.`;
export const blankAlone = () =>
  '--blank writes an empty form: it goes with neither a file of measurements nor --adopt.';
export const measurementsNeeded = () =>
  'audit needs a file of measurements behind the scenario. --blank ID writes an empty one.';
export const notABuild = (name: string) =>
  `'${visible(name)}' is neither the id of a combination of this scenario nor a setup with anything that works. Copy an id from the report, or name a setup.`;
export const nothingBuilt = () =>
  'Nothing works in the setup whose best combination was named: name a combination by its id.';
export const auditProblems = (count: number) =>
  count === 1 ? '1 problem. Nothing was audited.' : `${count} problems. Nothing was audited.`;
export const adoptBeside = (file: string) =>
  `--adopt ${visible(file)}: the adopted scenario stands beside the scenario, where its catalogues are found. Give a name without a folder.`;
export const adoptOverItself = (scenario: string, beside: string) =>
  `--adopt would write over ${visible(scenario)}. Say --force to do so, or leave the name out to write ${visible(beside)} beside it.`;
export const adoptOverOther = (file: string) =>
  `--adopt would write over ${visible(file)}, which is no scenario of the same name and car, or a link. It is left as it is, with --force too. Give another name.`;

export function adopted(file: string, id: string, cells: readonly CellToEnter[]): string {
  if (cells.length === 0) return `The measured values stand in ${visible(file)}; the build is ${id} there.`;
  const values = cells.length === 1 ? 'this value' : 'these values';
  return [
    `Left to enter in the catalogue, or in a copy of it that ${visible(file)} then names:`,
    ...cells.map((cell) => `  ${cellToEnter(cell)}`),
    `The other measured values stand in ${visible(file)}; once the catalogue holds ${values}, the build is ${id} there.`,
  ].join('\n');
}

function cellToEnter({ file, row, spring, column, isNewColumn, before, after }: CellToEnter): string {
  const place = `${visible(file)}, row ${row} (${spring})`;
  if (isNewColumn) return `${place}: a new column ${column}, and ${after} in it.`;
  return `${place}, column ${column}: ${after} ${before === '' ? 'where nothing stands' : `in place of ${before}`}.`;
}

export function notAdopted(fault: AdoptFault): string {
  const nothing = 'The measurements were not adopted, no scenario was written.';
  switch (fault.kind) {
    case 'unsettled': {
      const units = fault.units.map(({ axle, side }) => (side === null ? axle : `${axle} ${side}`));
      return `${nothing} Something disagrees at: ${units.join(', ')}. Put it right and measure again, then adopt.`;
    }
    case 'shared':
      return `${nothing} The ${fault.axle} axle could not take its values alone: a catalogue row or a YAML anchor serves the other axle too, or the filter of a catalogue leaves the measured spring out. Give each axle its own part, or widen the filter, then adopt.`;
    case 'problems':
      return [`${nothing} With them the scenario would have problems:`, ...fault.lines].join('\n');
  }
}

export const wroteForm = (command: string, file: string, scenario: string) =>
  [
    `wrote ${visible(file)}`,
    'Write your measurements into it, then:',
    `  ${command} audit ${forShell(scenario)} ${forShell(file)}`,
  ].join('\n');
