/** Every sentence the command line says of its own. */
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
  if (isBuild) return `${name}: no problem. One given build, ${setups.length} setups (${setups.join(', ')}).`;
  const pairs = front * rear;
  return [
    `${name}: no problem.`,
    `  front  ${whole(front)} combinations`,
    `  rear   ${whole(rear)} combinations`,
    `  ${setups.length} setups (${setups.join(', ')}): ${whole((front + rear) * setups.length)} corners to judge, up to ${whole(pairs)} pairs a setup`,
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
  return String(value).replace(/\B(?=(\d{3})+$)/g, ' ');
}
