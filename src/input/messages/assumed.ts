/** Sentences about what was taken without being given. */

/** Loads in kg. */
export const meanOfSides = (left: number, right: number, mean: number) =>
  `${kg(left)} left, ${kg(right)} right: ranked and toleranced at their mean, ${kg(mean)}`;

export const MEAN_SOURCE = 'computed; the shortlist is judged at both sides’ own loads too';

const kg = (value: number) => `${Number(value.toFixed(2))} kg`;
