// Stiffness of the metals an engine is made of: what interference fits, shells and bolts are worked out with.

export interface Elastic {
  /** Young's modulus, lbf/in2. */
  readonly modulus: number;
  readonly poisson: number;
}

/** Shigley's Mechanical Engineering Design, 9th ed., Table A-5 (grey iron: the middle of its 14.5; bronze as phosphor bronze). */
export const ELASTIC: Readonly<Record<string, Elastic>> = {
  steel: { modulus: 30e6, poisson: 0.292 },
  grey_iron: { modulus: 14.5e6, poisson: 0.211 },
  aluminium: { modulus: 10.4e6, poisson: 0.333 },
  bronze: { modulus: 16.1e6, poisson: 0.349 },
};

/** Young's modulus of steel, lbf/in2. */
export const STEEL_MODULUS = 30e6;
