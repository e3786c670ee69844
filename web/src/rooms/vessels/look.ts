/** How a vessel is drawn: what the page says of it, and what it asks the program for. */
export interface Look {
  scale: string;
  side: string;
  fill: string;
  conjecture: string;
  tint: string;
  edges: boolean;
  curve: boolean;
  measures: boolean;
}

export const kScales = ['1:1', '1:2', '1:3', '1:4', '1:5', '1:6', '1:8', '1:10'] as const;

export const kLook: Look = { scale: '1:4', side: 'left', fill: '', conjecture: 'dotted', tint: 'dots', edges: true, curve: true, measures: true };

/** Only what is not as usual, so that the same drawing is asked for by the same address. */
export function asked(look: Look) {
  return {
    scale: look.scale,
    ...(look.side === kLook.side ? {} : { side: look.side }),
    ...(look.fill === kLook.fill ? {} : { fill: look.fill }),
    ...(look.conjecture === kLook.conjecture ? {} : { conjecture: look.conjecture }),
    ...(look.tint === kLook.tint ? {} : { tint: look.tint }),
    ...(look.edges ? {} : { no_edges: true }),
    ...(look.curve ? {} : { no_curve: true }),
    ...(look.measures ? {} : { no_measures: true }),
  };
}

/** The options of the command that draws the same. */
export function command_options(look: Look): string {
  return Object.entries(asked(look))
    .map(([name, value]) => `--${name.replace(/_/g, '-')}${value === true ? '' : ` ${value}`}`)
    .join(' ');
}
