import base from "./playwright.config.js";
export default { ...base, globalSetup: undefined, workers: 2 };
