/** A thread for tests: adds one, throws below zero, ends at zero, fails soon after one. */
export default function work(task: number): number {
  if (task < 0) throw new RangeError('less than nothing');
  if (task === 0) process.exit(3);
  if (task === 1) {
    setTimeout(() => {
      throw new Error('tired');
    }, 20);
  }
  return task + 1;
}
