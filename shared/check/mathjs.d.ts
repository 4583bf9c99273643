/** The library in one file, which its own types don't mention: of all that it holds, only the parser is used. */
declare module "mathjs/lib/browser/math.js" {
  const mathjs: { readonly parse: (text: string) => import("mathjs").MathNode };
  export default mathjs;
}
