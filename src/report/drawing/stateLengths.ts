/** The lengths a drawing is made from, read off a judged corner itself: for a page that judges anew while it is read. */
import { type CornerState, clearanceClosed } from '../../domain/corner/state.ts';
import type { CornerLengths } from './lengths.ts';
import { rodDiameterOf, USUAL_NUT, USUAL_PLATE, usualWire } from './usual.ts';

export function stateLengths(state: CornerState): CornerLengths {
  const { corner, geometry, standing, full } = state;
  const { damper, sleeve, perch } = corner;
  return {
    damper: { droop: geometry.droopLength, standing: standing.length, full: full.length },
    hubToArch: { droop: geometry.droopHeight, standing: standing.height, full: full.height },
    body: { top: damper.bodyLength, diameter: damper.bodyDiameter },
    sleeve: {
      foot: sleeve.ledgeHeight - sleeve.grooveDrop,
      top: geometry.sleeveTop,
      trim: sleeve.trim,
      bore: sleeve.bore,
      diameter: sleeve.outerDiameter,
    },
    perch: { seat: standing.perch, height: perch.height, lockRing: perch.lockRing },
    ...springLengths(state),
    ...upperLengths(state),
    stop: {
      length: corner.bumpStop.length,
      closed: corner.bumpStop.closedFraction * corner.bumpStop.length,
      diameter: corner.bumpStop.diameter,
      meetsAt: geometry.stopMeetsAt,
      closesAt: geometry.stopClosesAt,
      packer: corner.bumpStop.packer,
      packerDiameter: corner.bumpStop.packer > 0 ? corner.bumpStop.packerDiameter : 0,
    },
    rodDiameter: rodDiameterOf(damper.gas.kind === 'charge' ? damper.gas.rodArea : null, damper.bodyDiameter),
    contacts: state.contacts.map((contact) => ({ ...contact, closed: closedOf(state, contact.clearance) })),
  };
}

function closedOf(state: CornerState, clearance: number): number | null {
  return state.site.bump.kind === 'closed' ? null : clearanceClosed(state, clearance);
}

function springLengths({ corner }: CornerState): Pick<CornerLengths, 'spring' | 'wire' | 'helper'> {
  const { freeLength, solid, rate, bore, wire } = corner.spring;
  const { helper } = corner;
  const spring = { free: freeLength, solid: solid.height, leastSolid: solid.least, rate, bore };
  return {
    spring,
    wire: wire
      ? { diameter: wire.diameter, active: wire.activeCoils, total: wire.totalCoils, isKnown: true }
      : usualWire(spring),
    helper: helper && {
      free: helper.freeLength,
      block: helper.blockHeight,
      rate: helper.rate,
      bore: helper.bore,
      coupler: helper.coupler,
    },
  };
}

function upperLengths({ corner, geometry }: CornerState): Pick<CornerLengths, 'mount' | 'isolator' | 'rodEnd'> {
  const { mount, isolator, rodEnd } = corner;
  return {
    mount: {
      raise: mount.raise,
      spacer: mount.spacer,
      isBoltedBelow: mount.bolted === 'below',
      flangeBelowShoulder: geometry.flangeBelowShoulder,
      seatBelowShoulder: geometry.seatBelowShoulder,
      spigot: mount.spigot,
      bore: mount.bore,
      lowerBush: mount.lowerBush,
      washers: mount.washers,
      washerDiameter: mount.washerDiameter,
      give: mount.bushGive,
    },
    isolator: isolator && { thickness: isolator.thickness, bore: isolator.bore, spigot: isolator.spigot },
    rodEnd: {
      plate: rodEnd?.plateThickness ?? USUAL_PLATE,
      upperBush: rodEnd?.upperBush ?? 0,
      upperWashers: rodEnd?.upperWashers ?? 0,
      nuts: rodEnd ? rodEnd.nut + rodEnd.jamNut : USUAL_NUT,
    },
  };
}
