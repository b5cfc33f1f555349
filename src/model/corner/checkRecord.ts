/** What the record of a check holds. */
import type { Balance } from '../scenario.ts';
import type { ContactPart } from './contacts.ts';
import type { CornerState } from './state.ts';

export type Decider = 'damper set' | 'sleeve' | 'perch' | 'stack' | 'pair';

/** What a build that fails does, the worst first. */
export const FAILINGS = ['metal', 'seat', 'margin', 'wish'] as const;
export type Failing = (typeof FAILINGS)[number];

/** In few words, and as a sentence begins that goes on with how many builds. */
export const FAILING_LABELS: Readonly<Record<Failing, string>> = {
  metal: 'metal meets',
  seat: 'spring can leave its seat',
  margin: 'margin eaten into',
  wish: 'wish missed',
};

/** What a check looked at, what it found there and what that had to reach, in the check's unit. */
export interface Found {
  readonly detail: string;
  readonly found: number;
  readonly needed: number;
}

/** Takes what a check demands, met or not, one after the other. */
export interface Demands {
  readonly atLeast: (detail: string, found: number, needed: number) => void;
  readonly atMost: (detail: string, found: number, needed: number) => void;
  readonly above: (detail: string, found: number, needed: number) => void;
}

/** What the checks read that sleeve and perch have a part in, as long as the stop meets the body. */
export type Seated = Pick<CornerState, 'site' | 'corner' | 'geometry' | 'standing' | 'slack' | 'contacts' | 'sides'>;

/** What a limit of height reads of a state: it may be that of one side, under its own load. */
export type Sited = Pick<CornerState, 'site' | 'corner' | 'geometry'>;

/** A limit of height: a ride height or a place of the perch, mm, by the name of an end, or with a load state behind it. */
export type Limiting = readonly [end: string, kind: 'height' | 'perch', value: number];

/** Part of a figure that the words of a failure stand at. */
export type ShownAt = 'spring' | 'stop' | 'body' | 'seat';

/** How drawings show a failure. */
export interface Shown {
  /** Beside the bench's figure, at a part of it. */
  readonly words?: string;
  readonly at?: ShownAt;
  /** The figure of the printed drawing that says the same words. */
  readonly figure?: 'droop' | 'standing' | 'full';
  /** A length that stands on every drawing, and what is said of it. */
  readonly length?: 'perch' | 'slack' | 'to stop';
  readonly mark?: string;
}

/** What advice asks of a check. */
export interface CheckAdvice {
  /** What of a combination decides it once the ride height is set. */
  readonly decidedBy: readonly Decider[];
  /** What a build that fails it does. */
  readonly failing: (found: Omit<Found, 'needed'>) => Failing;
}

interface Described {
  readonly label: string;
  /** In the map of springs. */
  readonly letter: string;
  readonly unit: 'mm' | 'N' | 'MPa' | 'Hz' | '';
  readonly say: (found: Found) => string;
  /** A clearance stands where it happens; null: a list beside the drawing tells it. */
  readonly shown: Shown | 'clearance' | null;
  /** Judged at full bump, not where the car stands. */
  readonly atFullBump?: true;
  /** Its details are fits. */
  readonly isFit?: true;
  /** Its details are the contacts of one part: metal, which rejects at the load of either side, too. */
  readonly part?: ContactPart;
  /** Follows the stop just met, not the stop closed. */
  readonly atStopMet?: true;
  /** Ends of the height window by name, with what a person calls them; contacts have their own names. */
  readonly ends?: Readonly<Record<string, string>>;
  /** The end a finding stands for where it ends a range, a contact among them; else its label says so. */
  readonly endOf?: (detail: string) => string;
  /** Limits of height from below and from above. */
  readonly below?: (state: Sited) => readonly Limiting[];
  readonly above?: (state: Sited) => readonly Limiting[];
  /** The ends at which a range of heights leaves it, see `heldRange`. */
  readonly held?: Readonly<Partial<Record<'unloaded' | 'slowest' | 'fastest', string>>>;
}

type OfCorner = {
  readonly find: (state: CornerState, demands: Demands) => void;
  /** Sleeve and perch have a part in it; `find` then reads no more than they can change. */
  readonly isOnSeat?: true;
  readonly findPair?: never;
};
type OfPair = {
  readonly findPair: (front: number, rear: number, balance: Balance, demands: Demands) => void;
  readonly find?: never;
  readonly isOnSeat?: never;
};

export type CheckRecord = Described & (OfCorner | OfPair);
