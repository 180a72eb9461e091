import { setUpShop } from '../flows/setUpShop.ts';
import type { HandlersFor } from '../handler.ts';
import type { shopEntries } from '../shared/catalogue/shop.ts';
import { setCharge, setListPrice, setPackage } from '../shop/charges.ts';
import { changeSettings, changeShop, setRate, setTax } from '../shop/commands.ts';
import { logoFile, removeLogo, setLogo } from '../shop/logo.ts';
import { journal } from '../views/journal.ts';
import { shopPage, shopState } from '../views/shopPage.ts';

export const shopHandlers: HandlersFor<typeof shopEntries> = {
  'shop.state': shopState,
  'shop.page': shopPage,
  'shop.setUp': setUpShop,
  'shop.update': changeShop,
  'shop.changeSettings': changeSettings,
  'shop.setRate': setRate,
  'shop.setTax': setTax,
  'shop.setCharge': setCharge,
  'shop.setPackage': setPackage,
  'shop.setListPrice': setListPrice,
  'shop.setLogo': setLogo,
  'shop.removeLogo': removeLogo,
  'shop.logoFile': { make: logoFile },
  'shop.journal': journal,
};
