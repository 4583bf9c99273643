import { KEY } from "./paperSettings";

/**
 * Script for the head of every page: has the page on dark paper from its first paint on, for whoever has chosen that.
 * Whoever's browser stores nothing, or something else, has light paper.
 */
export const PAPER_SCRIPT = `try{if(JSON.parse(localStorage.getItem("${KEY}")).paper==="dark")document.documentElement.dataset.paper="dark"}catch{}`;
