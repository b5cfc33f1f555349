/** The words of a choice of parts and of a cure. */
import type { Corner } from '../model/corner/site.ts';
import type { Cure, CureChange } from '../result/advice.ts';

const mm = (value: number) => `${value.toFixed(1)} mm`;

/** A listed choice in words, without the spring it is tried with. */
export function partsText({ damper, mount, isolator, bumpStop, sleeve, helper }: Corner): string {
  return [
    damper.name,
    `${sleeve.name}${sleeve.trim > 0 ? ` trimmed by ${mm(sleeve.trim)}` : ' untrimmed'}${sleeve.grooveDrop > 0 ? `, groove ${mm(sleeve.grooveDrop)} lower` : ''}`,
    `${mount.name}${mount.spacer > 0 ? `, spacer ${mm(mount.spacer)}` : ''}`,
    ...(isolator ? [isolator.name] : []),
    `${bumpStop.name} at ${mm(bumpStop.length)}${bumpStop.packer > 0 ? `, packer ${mm(bumpStop.packer)}` : ''}`,
    helper ? helper.name : 'no helper',
  ].join('; ');
}

const UNKNOWN_BODY =
  'only if the body is no single tube, whose piston runs on the inside of that wall, gas pressure behind it';

const CHANGE_SENTENCES: Readonly<Record<CureChange['kind'], (change: CureChange) => string>> = {
  trim: ({ part, from_mm, to_mm }) =>
    `trim ${part} by ${mm(to_mm)} in all, ${mm(Math.abs(to_mm - from_mm))} ${to_mm > from_mm ? 'more' : 'less'}`,
  spacer: ({ part, from_mm, to_mm }) =>
    from_mm === 0
      ? `put a spacer of ${mm(to_mm)} to ${part}`
      : `make the spacer of ${part} ${mm(to_mm)} instead of ${mm(from_mm)}`,
  stop: ({ part, from_mm, to_mm }) => `cut ${part} to ${mm(to_mm)} instead of ${mm(from_mm)}`,
  groove: ({ part, to_mm, body }) =>
    `lower the groove under ${part} by ${mm(to_mm)} in all (a question for the workshop${body === undefined ? '' : `: ${UNKNOWN_BODY}`})`,
  helper: ({ part }) => `add ${part}`,
  mount: ({ part, from_mm, to_mm }) =>
    `use a mount that holds the rod shoulder ${mm(Math.abs(to_mm - from_mm))} ${to_mm > from_mm ? 'higher' : 'lower'} than ${part} does (${mm(to_mm)} above the tower plane)`,
};

/** What to do, in one sentence: `Trim ... and cut ...` */
export function cureText({ changes }: Pick<Cure, 'changes'>): string {
  const words = changes.map((change) => CHANGE_SENTENCES[change.kind](change)).join(' and ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
