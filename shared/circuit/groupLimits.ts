/** Groups of sources that a board or a file holds at most; each costs the solver one more sheet of values. */
export const GROUP_LIMIT = 20;
/** Sources that a group holds at most. */
export const MEMBER_LIMIT = 100;
