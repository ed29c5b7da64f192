// A pattern's page.

import { keepPlace } from "./keeping.js";

keepPlace();
