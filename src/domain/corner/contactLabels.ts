import type { ContactName } from './contacts.ts';

/** What a person calls each contact. */
export const CONTACT_LABELS: Readonly<Record<ContactName, string>> = {
  coil_bind: 'spring coil-bound',
  damper: 'damper bottoming inside',
  sleeve_isolator: 'sleeve on isolator',
  sleeve_flange: 'sleeve on mount flange',
  sleeve_washers: 'sleeve on washers or packer',
  sleeve_plate: 'sleeve on the mount’s plate',
  body_isolator: 'body on isolator',
  body_flange: 'body on mount flange',
  tyre_arch: 'tyre on arch',
};
