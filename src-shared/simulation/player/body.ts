import type { Random } from '../strings/index.ts';

// A body that gives way: string i loses share(i, j)·ΔT newtons when string j gains ΔT. ASSUMED: stiffer strings lose more, a string's
// neighbours draw more than far ones, and the two ways between a pair are not quite alike (neck and bridge turn as well as bend).

/** Shares by `[i][j]`; the diagonal is 0. */
export type Body = readonly (readonly number[])[];

/** A body for strings of these stiffnesses (any unit). `averageShare` is what an average string loses to another; drawn widely if left out. */
export function drawBody(random: Random, stiffness: readonly number[], averageShare = random.betweenLog(0.004, 0.04)): Body {
  const average = stiffness.reduce((sum, one) => sum + one, 0) / stiffness.length;
  const nearness = random.between(0, 0.5);
  return stiffness.map((own, i) =>
    stiffness.map((_, j) => {
      if (i === j) return 0;
      const near = 1 + nearness * (1 / Math.abs(i - j) - 0.5);
      return averageShare * (own / average) * near * random.betweenLog(0.75, 1.33);
    }),
  );
}

/** The pulls of all strings, when their pegs ask for `pegNewtons` and they pulled `restNewtons` when the body was strung: a fixed point. */
export function pullsOn(body: Body, pegNewtons: readonly number[], restNewtons: readonly number[]): readonly number[] {
  let pulls = pegNewtons;
  for (let round = 0; round < rounds; round += 1)
    pulls = pegNewtons.map((peg, i) =>
      (body[i] ?? []).reduce((sum, share, j) => sum - share * ((pulls[j] ?? 0) - (restNewtons[j] ?? 0)), peg),
    );
  return pulls;
}

const rounds = 12;
