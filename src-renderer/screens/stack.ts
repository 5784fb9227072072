/** Courses in the order in which the player sees them: from the eye down, or turned over for an instrument strung upside down. */
export const asSeen = <Row>(courses: readonly Row[], { upsideDown }: { readonly upsideDown: boolean }): readonly Row[] =>
  upsideDown ? courses.toReversed() : courses;
