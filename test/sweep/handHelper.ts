/** A thread for tests: adds one, throws below zero, ends at zero. */
export default function work(task: number): number {
  if (task < 0) throw new RangeError('less than nothing');
  if (task === 0) process.exit(3);
  return task + 1;
}
