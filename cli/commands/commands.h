// Every command's row; each is made in the file of its name.
#pragma once

#include "cli/command/command.h"

namespace endband::cli {

Command book_start();
Command book_measure();
Command book_cut();
Command quote_make();
Command quote_list();
Command quote_show();
Command quote_explain();
Command quote_odds();
Command quote_send();
Command quote_revise();
Command quote_decline();
Command quote_accept();
Command job_list();
Command job_show();
Command job_use();
Command job_return();
Command job_time();
Command job_paid();
Command job_hold();
Command job_approve();
Command job_vary();
Command job_cut();
Command job_finish();
Command job_cancel();
Command material_add();
Command material_change();
Command material_list();
Command material_show();
Command material_price();
Command customer_add();
Command customer_change();
Command customer_list();
Command customer_show();
Command stock_list();
Command stock_receive();
Command stock_count();
Command stock_scrap();
Command stock_write_down();
Command stock_hand_back();
Command stock_change();
Command stock_offcuts();
Command stock_moves();
Command stock_supply();
Command stock_to_buy();
Command stock_suggest();
Command bench_show();
Command bench_set();
Command bench_off();
Command bench_week();
Command steps_set();
Command steps_list();
Command workshop_new();
Command workshop_set();
Command workshop_show();
Command workshop_check();
Command workshop_log();
Command workshop_undo();

}  // namespace endband::cli
