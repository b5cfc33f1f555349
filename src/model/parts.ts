/**
 * The parts a corner is built from, each one physical choice in inner units (mm, N, kg, N/mm, MPa). Beside each part
 * stands the table of its fields: reading a file and writing a result go through it, field by field.
 */
import type { Dimension } from './units.ts';

export interface Part {
  readonly name: string;
  /** Price of one piece in the scenario's currency; null when not given. */
  readonly price: number | null;
  /** How far off a usual value taken in place of a measured one may be, by field; a share of the gas push. */
  readonly assumed?: Readonly<Record<string, number>>;
}

/** What each field is: a number by its dimension, a word (or yes and no), or a record of several. */
type FieldsOf<P> = {
  readonly [K in Exclude<keyof P, keyof Part | 'notes'>]-?: NonNullable<P[K]> extends number
    ? Dimension
    : NonNullable<P[K]> extends string | boolean
      ? 'word'
      : 'record';
};

/** In a single tube the piston runs on the inside of the body's wall: such a body is never grooved or welded. */
export type DamperBody = 'twin_tube' | 'single_tube' | 'unknown';

export interface Damper extends Part {
  /** `l_ext`, lower eye centre to rod shoulder, fully out, mm. */
  readonly extended: number;
  /** `l_in`, the same, metal on metal inside the damper, mm. */
  readonly compressed: number;
  /** `B`, lower eye centre to the top of the body, mm. */
  readonly bodyLength: number;
  readonly bodyDiameter: number;
  /** No number depends on it, only what may be advised. */
  readonly body: DamperBody;
  readonly gas: GasSpring;
  /** Force against velocity, m/s and N, sorted by velocity; null when not given. */
  readonly forceVelocity:
    | readonly { readonly velocity: number; readonly bump: number; readonly rebound: number }[]
    | null;
}

const DAMPER = {
  extended: 'length',
  compressed: 'length',
  bodyLength: 'length',
  bodyDiameter: 'length',
  body: 'word',
  gas: 'record',
  forceVelocity: 'record',
} as const satisfies FieldsOf<Damper>;

export type GasSpring =
  | { readonly kind: 'none' }
  /** Rod force fully out and fully in, N; `inForce` null: constant. Linear in stroke between. */
  | { readonly kind: 'linear'; readonly outForce: number; readonly inForce: number | null }
  /** Charge pressure (gauge, MPa) at the working temperature, rod area mm^2, gas volume fully out mm^3. */
  | {
      readonly kind: 'charge';
      readonly chargePressure: number;
      readonly rodArea: number;
      readonly gasVolume: number;
    };

export interface Mount extends Part {
  /** `r`: rod shoulder above the tower plane with this spacer, mm. */
  readonly raise: number;
  /** The same without any spacer, mm. */
  readonly bareRaise: number;
  readonly spacer: number;
  /** `s`: seat flange below the tower plane, mm. */
  readonly flangeDepth: number;
  /** Bore of the seat flange and the cavity above it, mm. */
  readonly bore: number;
  /** How far a locating spigot hangs below the flange face, mm. */
  readonly spigot: number;
  /** `fixed`: the spring seat stays at the tower; `moving`: it moves with the rod shoulder. */
  readonly seat: 'fixed' | 'moving';
  readonly bolted: 'above' | 'below';
  /** Lower bush and washers between rod shoulder and inner plate, mm. */
  readonly lowerBush: number;
  readonly washers: number;
  /** Widest of the washers and the lower bush, mm. */
  readonly washerDiameter: number;
  /** How far the shoulder can rise in the bush under full bump load, mm. */
  readonly bushGive: number;
}

const MOUNT = {
  raise: 'length',
  bareRaise: 'length',
  spacer: 'length',
  flangeDepth: 'length',
  bore: 'length',
  spigot: 'length',
  seat: 'word',
  bolted: 'word',
  lowerBush: 'length',
  washers: 'length',
  washerDiameter: 'length',
  bushGive: 'length',
} as const satisfies FieldsOf<Mount>;

export interface Isolator extends Part {
  readonly thickness: number;
  readonly bore: number;
  /** How far a locating spigot hangs below the upper seat, mm. */
  readonly spigot: number;
}

const ISOLATOR = {
  thickness: 'length',
  bore: 'length',
  spigot: 'length',
} as const satisfies FieldsOf<Isolator>;

export interface BumpStop extends Part {
  /** `b`: length as fitted (cut), mm. */
  readonly length: number;
  /** Length as bought, mm. */
  readonly uncutLength: number;
  /** Closed length over free length, 0 to 1. */
  readonly closedFraction: number;
  /** Force at which it counted as closed, N; null: not stated. */
  readonly closedAtForce: number | null;
  readonly diameter: number;
  /** `p`: packer between shoulder and stop, mm, and its diameter (0 without packer). */
  readonly packer: number;
  readonly packerDiameter: number;
  /** Force against squeeze, mm and N, measured on a stop of `measuredLength` mm; null when not given. */
  readonly curve: StopCurve | null;
}

const BUMP_STOP = {
  length: 'length',
  uncutLength: 'length',
  closedFraction: 'ratio',
  closedAtForce: 'force',
  diameter: 'length',
  packer: 'length',
  packerDiameter: 'length',
  curve: 'record',
} as const satisfies FieldsOf<BumpStop>;

export interface StopCurve {
  readonly measuredLength: number;
  /** Sorted by squeeze; the first point is 0 mm, 0 N. */
  readonly points: readonly { readonly squeeze: number; readonly force: number }[];
}

export interface RodEnd extends Part {
  /** Where the full thread starts and ends above the rod shoulder, mm. */
  readonly threadStart: number;
  readonly threadEnd: number;
  readonly plateThickness: number;
  readonly upperBush: number;
  readonly upperWashers: number;
  readonly nut: number;
  readonly jamNut: number;
}

const ROD_END = {
  threadStart: 'length',
  threadEnd: 'length',
  plateThickness: 'length',
  upperBush: 'length',
  upperWashers: 'length',
  nut: 'length',
  jamNut: 'length',
} as const satisfies FieldsOf<RodEnd>;

export interface Sleeve extends Part {
  /** `G`: ledge above the lower eye, mm. */
  readonly ledgeHeight: number;
  /** `Ls`: length as bought, mm. */
  readonly length: number;
  readonly bore: number;
  readonly outerDiameter: number;
  /** `t`: cut off its top, mm. */
  readonly trim: number;
  /** `e`: how much lower a new groove has been machined, mm. */
  readonly grooveDrop: number;
  /** Thread pitch of the sleeve, mm per collar turn; null when not given. */
  readonly threadPitch: number | null;
}

const SLEEVE = {
  ledgeHeight: 'length',
  length: 'length',
  bore: 'length',
  outerDiameter: 'length',
  trim: 'length',
  grooveDrop: 'length',
  threadPitch: 'length',
} as const satisfies FieldsOf<Sleeve>;

export interface Perch extends Part {
  readonly lockRing: number;
  /** Lower face of the perch to the perch seat, mm. */
  readonly height: number;
  /** How far below the sleeve top the perch seat must stay, mm. */
  readonly inset: number;
  /** Outer diameter of the spigot that enters the spring; null when the perch has none. */
  readonly spigotDiameter: number | null;
  /** How deep the seats' spigots hold the spring, mm. */
  readonly engagement: number;
}

const PERCH = {
  lockRing: 'length',
  height: 'length',
  inset: 'length',
  spigotDiameter: 'length',
  engagement: 'length',
} as const satisfies FieldsOf<Perch>;

export interface Helper extends Part {
  readonly freeLength: number;
  readonly blockHeight: number;
  readonly rate: number;
  readonly bore: number;
  /** Coupler thickness between helper and main spring, mm, and its bore. */
  readonly coupler: number;
  readonly couplerBore: number;
}

const HELPER = {
  freeLength: 'length',
  blockHeight: 'length',
  rate: 'rate',
  bore: 'length',
  coupler: 'length',
  couplerBore: 'length',
} as const satisfies FieldsOf<Helper>;

export interface Spring extends Part {
  readonly freeLength: number;
  readonly rate: number;
  /** Inner diameter, mm. */
  readonly bore: number;
  readonly solid: SolidHeight;
  /** Wire diameter (mm) and coils where known or estimated from geometry. */
  readonly wire: WireData | null;
  /** True when the rate was computed from geometry. */
  readonly rateEstimated: boolean;
  /** What the catalogue says besides; left out where it says nothing. No number depends on it. */
  readonly notes?: readonly Note[];
}

/** Text of a catalogue that is only shown. */
export interface Note {
  readonly column: string;
  readonly text: string;
}

const SPRING = {
  freeLength: 'length',
  rate: 'rate',
  rateEstimated: 'word',
  bore: 'length',
  solid: 'record',
  wire: 'record',
} as const satisfies FieldsOf<Spring>;

export type SolidHeightSource = 'catalogue' | 'wire x coils' | 'estimated';

export interface SolidHeight {
  readonly source: SolidHeightSource;
  /** The height coil bind is judged on, mm. */
  readonly height: number;
  /** The least and the most it could be, mm: equal to `height` unless estimated. */
  readonly least: number;
  readonly most: number;
  /** Wire diameters at the thin and thick end of an estimate, mm. */
  readonly thinWire: number | null;
  readonly thickWire: number | null;
}

export interface WireData {
  readonly diameter: number;
  readonly activeCoils: number;
  readonly totalCoils: number;
  readonly material: string;
  /** False when nobody named the material, and the usual one was taken. */
  readonly materialGiven: boolean;
  /** True when the wire was estimated, not counted or catalogued. */
  readonly estimated: boolean;
}

/** The fields of every part, in the order in which its sizes are written. */
export const PART_FIELDS = {
  damper: DAMPER,
  mount: MOUNT,
  isolator: ISOLATOR,
  bumpStop: BUMP_STOP,
  rodEnd: ROD_END,
  sleeve: SLEEVE,
  perch: PERCH,
  helper: HELPER,
  spring: SPRING,
} as const;

/** The fields of a part that are of one kind. */
export type FieldsThatAre<Is, F extends keyof typeof PART_FIELDS> = string &
  {
    [K in keyof (typeof PART_FIELDS)[F]]: (typeof PART_FIELDS)[F][K] extends Is ? K : never;
  }[keyof (typeof PART_FIELDS)[F]];

/** What is cut or chosen with all parts in hand; everything else of a part is bought. */
export const MADE: Readonly<Partial<Record<keyof typeof PART_FIELDS, readonly string[]>>> = {
  mount: ['spacer', 'raise'] satisfies readonly (keyof Mount)[],
  bumpStop: ['length', 'packer', 'packerDiameter'] satisfies readonly (keyof BumpStop)[],
  sleeve: ['trim', 'grooveDrop'] satisfies readonly (keyof Sleeve)[],
};
