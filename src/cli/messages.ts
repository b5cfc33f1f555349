/** Every sentence the command line says of its own. */
import type { JoinFault } from '../sweep/shard.ts';
import type { Progress } from '../sweep/sweep.ts';

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'a file of that name stands there',
  ENOENT: 'part of the path does not exist',
};

export function filesInTheWay(folder: string, names: readonly string[]): string {
  return `${folder} already holds ${names.join(', ')}. Name another folder with --out, or say --force to replace them.`;
}

export function cannotWrite(folder: string, code: string): string {
  return `Cannot write to ${folder}: ${REASONS[code] ?? code}. Nothing was changed there.`;
}

export function folderNotEmpty(folder: string): string {
  return `${folder} is not empty. Name a new folder, or say --force to write the starter files into it.`;
}

export function problemCount(count: number): string {
  return count === 1 ? '1 problem. Nothing was swept.' : `${count} problems. Nothing was swept.`;
}

export function notAnId(text: string, reason: 'form' | 'check' | 'setup' | 'index'): string {
  const form = 'An id looks like low-F4F7-R2KD-7Q: copy it from the report, the CSV or the terminal.';
  if (reason === 'form') return `'${text}' is not an id. ${form}`;
  if (reason === 'setup') return `'${text}' names a setup that this scenario does not have.`;
  return `'${text}' does not belong to this scenario: it was mistyped, or the parts have changed since. Sweep again for new ids.`;
}

export function checked(
  name: string,
  front: number,
  rear: number,
  setups: readonly string[],
  isBuild: boolean,
): string {
  const named = `${setups.length} ${setups.length === 1 ? 'setup' : 'setups'} (${setups.join(', ')})`;
  if (isBuild) return `${name}: no problem. One given build, ${named}.`;
  const pairs = front * rear;
  return [
    `${name}: no problem.`,
    `  front  ${whole(front)} combinations`,
    `  rear   ${whole(rear)} combinations`,
    `  ${named}: ${whole((front + rear) * setups.length)} corners to judge, up to ${whole(pairs)} pairs a setup`,
  ].join('\n');
}

export function wrote(paths: readonly string[]): string {
  return paths.map((path) => `wrote ${path}`).join('\n');
}

export function started(folder: string, files: readonly string[]): string {
  return [
    `Wrote ${files.join(', ')} to ${folder}.`,
    'The values are invented. Replace them with what you measured, then:',
    `  springsift check ${folder}/scenario.yaml`,
    `  springsift sweep ${folder}/scenario.yaml --out ${folder}/out`,
  ].join('\n');
}

/** Whole number in groups of three, the same in every locale. */
export function whole(value: number): string {
  return String(value).replace(/\B(?=(\d{3})+$)/g, ',');
}

/** One line: how far, how fast, how long still. */
export function progress(name: string, { judged, of, workable }: Progress, seconds: number): string {
  const share = of > 0 ? judged / of : 1;
  const rate = seconds > 0 ? judged / seconds : 0;
  const left = rate > 0 ? (of - judged) / rate : Number.NaN;
  const millions = `${(rate / 1e6).toFixed(1)} million/s`;
  return `${name}: ${(100 * share).toFixed(0)} % of ${whole(of)}, ${millions}, ${duration(left)} left, ${whole(workable)} work so far`;
}

function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return 'unknown time';
  return seconds < 90 ? `${Math.ceil(seconds)} s` : `${Math.ceil(seconds / 60)} min`;
}

export function stopped(judged: number, of: number, canKeep: boolean): string {
  const hint = canKeep ? '; --keep-partial would have written what was found' : '';
  return `Stopped after ${whole(judged)} of ${whole(of)} combinations. Nothing was written${hint}.`;
}

export function notWithShares(): string {
  return '--shard goes with neither --rank-by nor --keep-partial: a part holds counts and candidates, and merge needs it whole.';
}

export function notWorkers(text: string): string {
  return `--workers takes a whole number from 1 to 256, not '${text}'.`;
}

export function sameFolder(folder: string): string {
  return `Two of the scenarios would write to ${folder}. Give their files or folders different names.`;
}

export function notAShare(text: string): string {
  return `--shard takes a part and a count such as 3/8 (the third of eight), not '${text}'.`;
}

export function unreadablePart(path: string): string {
  return `${path} cannot be read. merge takes the part files that sweep --shard wrote.`;
}

export function notAPart(file: string, folder: string, version: string): string {
  return `${file} in ${folder} is no part of a sweep by springsift ${version}. Sweep that part again with --shard.`;
}

export function doesNotJoin(fault: JoinFault): string {
  switch (fault.kind) {
    case 'other scenario':
      return `Part ${fault.part} belongs to another scenario, or to this one before it was changed. Sweep it again.`;
    case 'other count':
      return `Part ${fault.part} was cut for another number of parts. All parts must come from the same cut.`;
    case 'twice':
      return `Part ${fault.part} is given twice.`;
    case 'missing':
      return `Missing: ${fault.parts.map((n) => `part ${n}`).join(', ')}. Give all parts.`;
  }
}

export function shardsOneScenario(): string {
  return '--shard takes one scenario at a time.';
}
