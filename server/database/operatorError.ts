/** Something that whoever runs the server has to mend: its message is the whole story, without a stack. */
export class OperatorError extends Error {}
