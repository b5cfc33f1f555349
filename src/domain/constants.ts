/** Standard acceleration of free fall, m/s^2, exact (CGPM 1901; NIST SP 811 App. B.8). */
export const STANDARD_GRAVITY = 9.80665;

/** Standard atmosphere, MPa, exact (NIST SP 811 App. B.8: 101 325 Pa). */
export const STANDARD_ATMOSPHERE = 0.101325;
