import type { ContactName, WheelStop } from './contacts.ts';

/** What a person calls each contact. */
export const CONTACT_LABELS: Readonly<Record<ContactName, string>> = {
  coil_bind: 'coil bind',
  damper: 'damper bottoming inside',
  sleeve_isolator: 'sleeve on isolator',
  sleeve_flange: 'sleeve on mount flange',
  sleeve_washers: 'sleeve on washers or packer',
  sleeve_plate: 'sleeve on the mount’s plate',
  body_isolator: 'body on isolator',
  body_flange: 'body on mount flange',
  tyre_arch: 'tyre on arch',
};

/** What a person calls each end of a wheel's way. */
export const WHEEL_STOP_LABELS: Readonly<Record<WheelStop, string>> = {
  ...CONTACT_LABELS,
  closed_stop: 'bump stop closed',
  droop: 'full droop',
};
