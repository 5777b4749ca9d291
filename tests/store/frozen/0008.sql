BEGIN TRANSACTION;
CREATE TABLE aim_reading (
	reading INTEGER NOT NULL, 
	board_distance_mm DOUBLE NOT NULL, 
	reading_mm DOUBLE NOT NULL, 
	mirror BOOLEAN, 
	block INTEGER, 
	instrument TEXT, 
	CONSTRAINT pk_aim_reading PRIMARY KEY (reading), 
	CONSTRAINT fk_aim_reading_reading_reading FOREIGN KEY(reading) REFERENCES reading (id) ON DELETE CASCADE
);
INSERT INTO "aim_reading" VALUES(2,2000.0,81.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(3,2000.0,60.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(4,2000.0,-5.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(5,2000.0,-3.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(6,2000.0,-16.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(7,2000.0,-5.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(8,2000.0,-18.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(9,2000.0,-47.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(10,2000.0,2.0,0,NULL,NULL);
INSERT INTO "aim_reading" VALUES(11,2000.0,11.0,0,NULL,NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0008');
CREATE TABLE bench_check (
	id INTEGER NOT NULL, 
	putter_order INTEGER NOT NULL, 
	kind TEXT NOT NULL, 
	entry_key TEXT NOT NULL, 
	verdict TEXT NOT NULL, 
	measured JSON NOT NULL, 
	result JSON NOT NULL, 
	checked_at DATETIME NOT NULL, 
	checked_by TEXT NOT NULL, 
	CONSTRAINT pk_bench_check PRIMARY KEY (id), 
	CONSTRAINT uq_bench_check_putter_order_entry_key UNIQUE (putter_order, entry_key), 
	CONSTRAINT fk_bench_check_putter_order_putter_order FOREIGN KEY(putter_order) REFERENCES putter_order (id) ON DELETE CASCADE
);
INSERT INTO "bench_check" VALUES(1,1,'in','c','pass','{"lie_deg": 70.5}','{}','2026-05-01 09:30:00.000000','bench');
CREATE TABLE build (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	build_id TEXT NOT NULL, 
	length_mm DOUBLE NOT NULL, 
	lie_deg DOUBLE NOT NULL, 
	loft_deg DOUBLE NOT NULL, 
	label TEXT, 
	head_id TEXT, 
	head_shape TEXT, 
	sight_line TEXT, 
	neck_id TEXT, 
	neck_style TEXT, 
	offset_mm DOUBLE, 
	head_mass_g DOUBLE, 
	cg_from_axis_mm DOUBLE, 
	cg_depth_mm DOUBLE, 
	moi_vertical_axis_g_cm2 DOUBLE, 
	toe_hang_deg DOUBLE, 
	grip_id TEXT, 
	grip_diameter_mm DOUBLE, 
	grip_mass_g DOUBLE, 
	shaft_mass_g DOUBLE, 
	total_mass_g DOUBLE, 
	balance_from_butt_mm DOUBLE, 
	price DOUBLE, 
	extra JSON NOT NULL, 
	CONSTRAINT pk_build PRIMARY KEY (id), 
	CONSTRAINT uq_build_fitting_build_id UNIQUE (fitting, build_id), 
	CONSTRAINT uq_build_fitting_position UNIQUE (fitting, position), 
	CONSTRAINT fk_build_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "build" VALUES(1,1,0,'A',876.3,71.0,2.0,'Own putter','head-A','half_mallet','dot',NULL,'centre',0.0,351.0,NULL,19.8,4968.0,31.0,NULL,30.0,NULL,NULL,NULL,NULL,NULL,'{}');
INSERT INTO "build" VALUES(2,1,1,'B',863.6,71.0,3.0,'Trial B','head-B','mallet','line',NULL,'centre',5.0,358.0,NULL,28.5,6244.0,0.0,NULL,34.0,NULL,NULL,NULL,NULL,NULL,'{}');
INSERT INTO "build" VALUES(3,1,2,'C',838.2,69.0,2.0,'Trial C','head-C','blade','dot',NULL,'flowing',5.0,332.0,NULL,10.8,3986.0,52.0,NULL,27.0,NULL,NULL,NULL,NULL,NULL,'{}');
INSERT INTO "build" VALUES(4,1,3,'D',889.0,70.0,4.0,'Trial D','head-D','blade','none',NULL,'double bend',20.0,345.0,NULL,15.6,4313.0,62.0,NULL,27.0,NULL,NULL,NULL,NULL,NULL,'{}');
INSERT INTO "build" VALUES(5,1,4,'E',838.2,70.0,2.0,'Trial E','head-E','half_mallet','line',NULL,'double bend',20.0,347.0,NULL,17.9,5015.0,26.0,NULL,30.0,NULL,NULL,NULL,NULL,NULL,'{}');
CREATE TABLE decision_made (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	version TEXT NOT NULL, 
	seed INTEGER NOT NULL, 
	inputs_sha256 TEXT NOT NULL, 
	decision JSON NOT NULL, 
	revision INTEGER NOT NULL, 
	made_at DATETIME NOT NULL, 
	issued_at DATETIME, 
	CONSTRAINT pk_decision_made PRIMARY KEY (id), 
	CONSTRAINT uq_decision_made_fitting_inputs_sha256_version_seed UNIQUE (fitting, inputs_sha256, version, seed), 
	CONSTRAINT fk_decision_made_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "decision_made" VALUES(1,1,'0.1.0',1,'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','{"choice": "keep"}',4,'2026-05-01 09:30:00.000000','2026-05-01 09:30:00.000000');
CREATE TABLE details_change (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	changes JSON NOT NULL, 
	changed_at DATETIME NOT NULL, 
	changed_by TEXT NOT NULL, 
	CONSTRAINT pk_details_change PRIMARY KEY (id), 
	CONSTRAINT fk_details_change_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "details_change" VALUES(1,1,'{"alias": ["Rose", "R\u00f3is\u00edn ''o"]}','2026-05-01 09:30:00.000000','fitter');
CREATE TABLE file_read (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	file TEXT NOT NULL, 
	header TEXT NOT NULL, 
	entry_key TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	row_keys BLOB NOT NULL, 
	added INTEGER NOT NULL, 
	"before" INTEGER NOT NULL, 
	aside INTEGER NOT NULL, 
	read_at DATETIME NOT NULL, 
	read_by TEXT NOT NULL, 
	CONSTRAINT pk_file_read PRIMARY KEY (id), 
	CONSTRAINT uq_file_read_fitting_entry_key UNIQUE (fitting, entry_key), 
	CONSTRAINT fk_file_read_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "file_read" VALUES(1,1,'log.csv','0123456789abcdef','f','putts',X'0000000000000000',1,0,1,'2026-05-01 09:30:00.000000','fitter');
CREATE TABLE first_putt (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	distance_m DOUBLE NOT NULL, 
	per_round DOUBLE NOT NULL, 
	extra JSON NOT NULL, 
	CONSTRAINT pk_first_putt PRIMARY KEY (id), 
	CONSTRAINT uq_first_putt_fitting_position UNIQUE (fitting, position), 
	CONSTRAINT fk_first_putt_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "first_putt" VALUES(1,1,0,5.5,9.0,'{}');
CREATE TABLE "fitting" (
	id INTEGER NOT NULL, 
	fitting_id TEXT NOT NULL, 
	entry_key TEXT NOT NULL, 
	date TEXT NOT NULL, 
	own_build TEXT NOT NULL, 
	golfer_alias TEXT NOT NULL, 
	golfer_handed TEXT NOT NULL, 
	golfer_stature_mm DOUBLE, 
	golfer_wrist_height_mm DOUBLE, 
	golfer_shoulder_height_mm DOUBLE, 
	golfer_hip_height_mm DOUBLE, 
	golfer_eye_dominant TEXT, 
	golfer_handicap DOUBLE, 
	golfer_minor BOOLEAN, 
	golfer_extra JSON NOT NULL, 
	green_speed_ft DOUBLE NOT NULL, 
	green_slope_pct DOUBLE, 
	green_slope_towards_deg DOUBLE, 
	green_extra JSON NOT NULL, 
	extra JSON NOT NULL, 
	search_text TEXT NOT NULL, 
	revision INTEGER NOT NULL, 
	created_at DATETIME NOT NULL, 
	created_by TEXT NOT NULL, 
	golfer_stature_told BOOLEAN, 
	golfer_key TEXT NOT NULL, 
	practice BOOLEAN NOT NULL, 
	CONSTRAINT pk_fitting PRIMARY KEY (id), 
	CONSTRAINT uq_fitting_fitting_id UNIQUE (fitting_id), 
	CONSTRAINT uq_fitting_entry_key UNIQUE (entry_key)
);
INSERT INTO "fitting" VALUES(1,'virtual-0000','k','2026-05-01','A','Róisín ''o','right',1780.0,NULL,NULL,NULL,NULL,13.0,NULL,'{}',8.9,NULL,NULL,'{}','{"weather": "windy"}','róisín ''o 2026-05-01 virtual-0000',4,'2026-05-01 09:30:00.000000','fitter',NULL,'virtual-0000',0);
CREATE TABLE golfer_note (
	id INTEGER NOT NULL, 
	golfer TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	answer TEXT NOT NULL, 
	told TEXT NOT NULL, 
	noted_at DATETIME NOT NULL, 
	noted_by TEXT NOT NULL, 
	CONSTRAINT pk_golfer_note PRIMARY KEY (id)
);
INSERT INTO "golfer_note" VALUES(1,'virtual-0000','told','yes','what is kept','2026-05-01 09:30:00.000000','fitter');
CREATE TABLE green (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	speed_ft DOUBLE NOT NULL, 
	share DOUBLE NOT NULL, 
	grass_mm DOUBLE, 
	extra JSON NOT NULL, 
	CONSTRAINT pk_green PRIMARY KEY (id), 
	CONSTRAINT uq_green_fitting_position UNIQUE (fitting, position), 
	CONSTRAINT fk_green_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "green" VALUES(1,1,0,'Home green',8.5,0.7,NULL,'{}');
INSERT INTO "green" VALUES(2,1,1,'Away green',10.3,0.3,NULL,'{}');
CREATE TABLE instrument (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	quantity TEXT NOT NULL, 
	repeatability_sd DOUBLE NOT NULL, 
	resolution DOUBLE, 
	bias DOUBLE, 
	extra JSON NOT NULL, 
	CONSTRAINT pk_instrument PRIMARY KEY (id), 
	CONSTRAINT uq_instrument_fitting_position UNIQUE (fitting, position), 
	CONSTRAINT fk_instrument_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "instrument" VALUES(1,1,0,'laser','reading_mm',1.5,NULL,NULL,'{}');
CREATE TABLE practice (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	golfer JSON NOT NULL, 
	shown_at DATETIME, 
	CONSTRAINT pk_practice PRIMARY KEY (id), 
	CONSTRAINT uq_practice_fitting UNIQUE (fitting), 
	CONSTRAINT fk_practice_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "practice" VALUES(1,1,'{"invented": true}','2026-05-01 09:30:00.000000');
CREATE TABLE putt (
	reading INTEGER NOT NULL, 
	distance_m DOUBLE NOT NULL, 
	block INTEGER, 
	holed BOOLEAN, 
	stop_past_m DOUBLE, 
	stop_right_m DOUBLE, 
	ball_speed_mps DOUBLE, 
	launch_deg DOUBLE, 
	start_deg DOUBLE, 
	spin_rpm DOUBLE, 
	skid_m DOUBLE, 
	roll_share_pct DOUBLE, 
	head_speed_mps DOUBLE, 
	face_deg DOUBLE, 
	path_deg DOUBLE, 
	attack_deg DOUBLE, 
	dynamic_loft_deg DOUBLE, 
	shaft_lean_deg DOUBLE, 
	closure_deg_s DOUBLE, 
	strike_toe_mm DOUBLE, 
	strike_high_mm DOUBLE, 
	backswing_s DOUBLE, 
	downswing_s DOUBLE, 
	instrument TEXT, 
	note TEXT, 
	CONSTRAINT pk_putt PRIMARY KEY (reading), 
	CONSTRAINT fk_putt_reading_reading FOREIGN KEY(reading) REFERENCES reading (id) ON DELETE CASCADE
);
INSERT INTO "putt" VALUES(12,2.4,NULL,0,0.59,0.14,2.547,NULL,2.94,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(13,3.6,NULL,0,-0.17,0.02,2.783,NULL,0.61,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(14,6.0,NULL,0,0.95,0.19,3.804,NULL,1.62,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(15,2.4,NULL,1,NULL,NULL,2.261,NULL,-0.81,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(16,2.4,NULL,0,0.97,-0.1,2.675,NULL,-1.81,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(17,3.6,NULL,1,NULL,NULL,2.782,NULL,-0.22,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(18,6.0,NULL,0,-0.19,0.03,3.504,NULL,0.18,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(19,2.4,NULL,0,0.28,0.05,2.361,NULL,0.89,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(20,2.4,NULL,0,0.32,0.05,2.399,NULL,1.43,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(21,3.6,NULL,0,0.78,0.07,3.124,NULL,1.37,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(22,6.0,NULL,0,1.55,0.25,3.966,NULL,1.88,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(23,2.4,NULL,0,0.46,0.1,2.484,NULL,1.81,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(24,2.4,NULL,1,NULL,NULL,2.554,NULL,-0.38,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(25,3.6,NULL,1,NULL,NULL,2.755,NULL,-0.72,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(26,6.0,NULL,1,NULL,NULL,3.612,NULL,-0.01,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(27,2.4,NULL,0,0.89,0.06,2.56,NULL,1.09,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(28,2.4,NULL,0,0.32,0.21,2.44,NULL,4.38,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(29,3.6,NULL,0,0.78,0.14,3.103,NULL,1.53,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(30,6.0,NULL,1,NULL,NULL,3.616,NULL,0.2,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(31,2.4,NULL,0,0.55,0.1,2.492,NULL,1.89,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'sensor',NULL);
INSERT INTO "putt" VALUES(32,2.5,NULL,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "putt" VALUES(33,2.5,NULL,0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE putter_order (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	order_id TEXT NOT NULL, 
	entry_key TEXT NOT NULL, 
	document JSON NOT NULL, 
	made_at DATETIME NOT NULL, 
	made_by TEXT NOT NULL, 
	CONSTRAINT pk_putter_order PRIMARY KEY (id), 
	CONSTRAINT uq_putter_order_order_id UNIQUE (order_id), 
	CONSTRAINT uq_putter_order_fitting_entry_key UNIQUE (fitting, entry_key), 
	CONSTRAINT fk_putter_order_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "putter_order" VALUES(1,1,'virtual-0000-B','o','{"order_id": "virtual-0000-B"}','2026-05-01 09:30:00.000000','fitter');
CREATE TABLE rack_part (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	part_id TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	label TEXT, 
	head_shape TEXT, 
	sight_line TEXT, 
	neck_style TEXT, 
	offset_mm DOUBLE, 
	length_mm DOUBLE, 
	lie_deg DOUBLE, 
	loft_deg DOUBLE, 
	mass_g DOUBLE, 
	cg_from_axis_mm DOUBLE, 
	cg_depth_mm DOUBLE, 
	moi_vertical_axis_g_cm2 DOUBLE, 
	toe_hang_deg DOUBLE, 
	grip_diameter_mm DOUBLE, 
	stock INTEGER, 
	price DOUBLE, 
	loft_min_deg DOUBLE, 
	loft_max_deg DOUBLE, 
	lie_min_deg DOUBLE, 
	lie_max_deg DOUBLE, 
	fits TEXT, 
	extra JSON NOT NULL, alloy TEXT, neck_joint TEXT, balance_from_butt_mm DOUBLE, bent_before_deg DOUBLE, 
	CONSTRAINT pk_rack_part PRIMARY KEY (id), 
	CONSTRAINT uq_rack_part_fitting_position UNIQUE (fitting, position), 
	CONSTRAINT fk_rack_part_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "rack_part" VALUES(1,1,0,'H1','head',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,350.5,NULL,NULL,NULL,NULL,NULL,2,NULL,NULL,NULL,NULL,NULL,NULL,'{"bay": "3"}',NULL,NULL,NULL,NULL);
CREATE TABLE reading (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	kind TEXT NOT NULL, 
	seq INTEGER NOT NULL, 
	build_id TEXT NOT NULL, 
	entry_key TEXT NOT NULL, 
	extra JSON NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by TEXT NOT NULL, fingerprint TEXT, 
	CONSTRAINT pk_reading PRIMARY KEY (id), 
	CONSTRAINT fk_reading_fitting_build_id_build FOREIGN KEY(fitting, build_id) REFERENCES build (fitting, build_id) ON DELETE CASCADE, 
	CONSTRAINT uq_reading_fitting_kind_seq UNIQUE (fitting, kind, seq), 
	CONSTRAINT uq_reading_fitting_entry_key UNIQUE (fitting, entry_key)
);
INSERT INTO "reading" VALUES(1,1,'setups',1000,'A','package:setups:1000','{}','2026-05-01 09:30:00.000000','fitter','7f4f28e0b925f2e03f8cf8ab19342382714de8efbb36447c2295e14394e13ddb');
INSERT INTO "reading" VALUES(2,1,'aims',1,'A','package:aims:1','{}','2026-05-01 09:30:00.000000','fitter','a432cad0bbbf498dced2e9fc34dc81ceb925919a4848a4092a192bc7a8a65c5f');
INSERT INTO "reading" VALUES(3,1,'aims',2,'A','package:aims:2','{}','2026-05-01 09:30:00.000000','fitter','98dc33a85366900db3b6a9759de9827d9fed525d6752661ccba2e13ab69659a3');
INSERT INTO "reading" VALUES(4,1,'aims',3,'B','package:aims:3','{}','2026-05-01 09:30:00.000000','fitter','bbfb8701f2118d4bee5c60f23d1d776c8396ef9e2d042e487025833ec8426993');
INSERT INTO "reading" VALUES(5,1,'aims',4,'B','package:aims:4','{}','2026-05-01 09:30:00.000000','fitter','6da188e3ffec8d481d0105f72d6486ae4e21e1df501374b58b02ec34f95f38ea');
INSERT INTO "reading" VALUES(6,1,'aims',5,'C','package:aims:5','{}','2026-05-01 09:30:00.000000','fitter','334476fd2ecf29997c3a3a543d2cc7cdf91573f4495eba1ffbf3d121b4cf668e');
INSERT INTO "reading" VALUES(7,1,'aims',6,'C','package:aims:6','{}','2026-05-01 09:30:00.000000','fitter','7c879c41faa6effb5ac36119885c93e7c6a99fea3325551f751b6b3d27b8968b');
INSERT INTO "reading" VALUES(8,1,'aims',7,'D','package:aims:7','{}','2026-05-01 09:30:00.000000','fitter','07fdcce75148be7c83df119200847bd8d42f4049bfe14a58bc7584503e0670ab');
INSERT INTO "reading" VALUES(9,1,'aims',8,'D','package:aims:8','{}','2026-05-01 09:30:00.000000','fitter','478ca329884cdd411a1510af8f5f6e85fa59ffd0f3bea553247007e07482745f');
INSERT INTO "reading" VALUES(10,1,'aims',9,'E','package:aims:9','{}','2026-05-01 09:30:00.000000','fitter','1fe3d8947cd40968404e2a34859e4027413c9b34acf7521917b6871cdcd4efb5');
INSERT INTO "reading" VALUES(11,1,'aims',10,'E','package:aims:10','{}','2026-05-01 09:30:00.000000','fitter','c53cac54a19238c00a39ec67ccfdc9c00ffcc995a57f78dbac0db6258b1aef5e');
INSERT INTO "reading" VALUES(12,1,'putts',1,'E','package:putts:1','{}','2026-05-01 09:30:00.000000','fitter','19dc332d4138688b80bf3d6d03f9b992350f681d3c5ed41e3694a51c88bd0e6b');
INSERT INTO "reading" VALUES(13,1,'putts',2,'E','package:putts:2','{}','2026-05-01 09:30:00.000000','fitter','fa7d32f806fc2c101acf2aa13f02f200e011c3a0ec69352ef657b6a7aaec9307');
INSERT INTO "reading" VALUES(14,1,'putts',3,'E','package:putts:3','{}','2026-05-01 09:30:00.000000','fitter','8e74f909c1f0ef2608c819159bd5af5e98a25541cee847a30ab7996cbfdfbaa6');
INSERT INTO "reading" VALUES(15,1,'putts',4,'E','package:putts:4','{}','2026-05-01 09:30:00.000000','fitter','5d9a320a9545d19ca3fab184b5c6452577055f231127300c27af54a1d1b5b070');
INSERT INTO "reading" VALUES(16,1,'putts',5,'B','package:putts:5','{}','2026-05-01 09:30:00.000000','fitter','46f1aff18f9f38abf1c6819280c9002f7b65c054b9092704d0101b9598e566c3');
INSERT INTO "reading" VALUES(17,1,'putts',6,'B','package:putts:6','{}','2026-05-01 09:30:00.000000','fitter','4b394fc840d6e63310f0e349c28c03fc311176363797542d49e731c58da35371');
INSERT INTO "reading" VALUES(18,1,'putts',7,'B','package:putts:7','{}','2026-05-01 09:30:00.000000','fitter','7696d43b7ba7fa9ca9dfa4f804b210bf0fc89359cb4edda49ef6abb96cdfaa5b');
INSERT INTO "reading" VALUES(19,1,'putts',8,'B','package:putts:8','{}','2026-05-01 09:30:00.000000','fitter','ce15fd39b4bf41c64235a1e3649b1545cb8fc1a799220f9779038a181b79f586');
INSERT INTO "reading" VALUES(20,1,'putts',9,'A','package:putts:9','{}','2026-05-01 09:30:00.000000','fitter','8f972e7b685419056effd2fa8fbd8a11cc0ab2da7ba3e02b8fe60b500a96ef04');
INSERT INTO "reading" VALUES(21,1,'putts',10,'A','package:putts:10','{}','2026-05-01 09:30:00.000000','fitter','93ec358c12c36c2ec958b7415a1666d2f7a269fa58fcb20c99da07cf1cf95e67');
INSERT INTO "reading" VALUES(22,1,'putts',11,'A','package:putts:11','{}','2026-05-01 09:30:00.000000','fitter','4c96b3ec569ac06bb554e67ff79cf757820c3eff321419ffc5ea967abe8e22ae');
INSERT INTO "reading" VALUES(23,1,'putts',12,'A','package:putts:12','{}','2026-05-01 09:30:00.000000','fitter','cc7ca980228b4ade80e02b38c16cdeec4ede5ee725f5dbee2e39d4889f98ad10');
INSERT INTO "reading" VALUES(24,1,'putts',13,'D','package:putts:13','{}','2026-05-01 09:30:00.000000','fitter','d7a03f0941f1d0298e773ccbf37d9e8af50487507f265c641ed15902daf78b6b');
INSERT INTO "reading" VALUES(25,1,'putts',14,'D','package:putts:14','{}','2026-05-01 09:30:00.000000','fitter','b43bb387b959c39acfd0e2950f69002cdca997ad216edca6070a656242bc8e86');
INSERT INTO "reading" VALUES(26,1,'putts',15,'D','package:putts:15','{}','2026-05-01 09:30:00.000000','fitter','54e91f859abefc0f54ef0e7a5299a6dbbe30b660786e3ce408992dfa377f43b6');
INSERT INTO "reading" VALUES(27,1,'putts',16,'D','package:putts:16','{}','2026-05-01 09:30:00.000000','fitter','1cb2004963bbccaf6bced4034ff7e7e27d1c9b431c766beaa68a859729548c10');
INSERT INTO "reading" VALUES(28,1,'putts',17,'C','package:putts:17','{}','2026-05-01 09:30:00.000000','fitter','6a7f46dcf3a103477c8792c585490875df9607ac4d323cec33d774cb627d20c4');
INSERT INTO "reading" VALUES(29,1,'putts',18,'C','package:putts:18','{}','2026-05-01 09:30:00.000000','fitter','c29a3debb72a2e78b393a6ec1e38d7a4736e0b51c4d19e6b9211bcf96d6d722c');
INSERT INTO "reading" VALUES(30,1,'putts',19,'C','package:putts:19','{}','2026-05-01 09:30:00.000000','fitter','2384816584477abdcef9a8c0103c19493836fda42cad495a8c2bb8b5ff77981e');
INSERT INTO "reading" VALUES(31,1,'putts',20,'C','package:putts:20','{}','2026-05-01 09:30:00.000000','fitter','10f4207622cacf3649ec2c86ad4ca30d6a295a7175f2163f4eadd12101ebee9f');
INSERT INTO "reading" VALUES(32,1,'putts',1001,'A','e1','{}','2026-05-01 09:30:00.000000','fitter','7d1a73fe10ade2111155fe3d6f00750b2d82bb6a78a4a5c3d53f114ac448671f');
INSERT INTO "reading" VALUES(33,1,'putts',1002,'A','e2','{}','2026-05-01 09:30:00.000000','fitter','1511053e7d27d7ee524e27d2dd0c737625f6e60e319508bb033f8381652d3824');
CREATE TABLE row_aside (
	id INTEGER NOT NULL, 
	fitting INTEGER NOT NULL, 
	file TEXT NOT NULL, 
	header TEXT NOT NULL, 
	"row" INTEGER NOT NULL, 
	why TEXT NOT NULL, 
	cells TEXT NOT NULL, 
	row_key TEXT NOT NULL, 
	CONSTRAINT pk_row_aside PRIMARY KEY (id), 
	CONSTRAINT fk_row_aside_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "row_aside" VALUES(1,1,'log.csv','0123456789abcdef',3,'ball speed: too fast','{}','0000000000000000');
CREATE TABLE setup_reading (
	reading INTEGER NOT NULL, 
	eye_inside_mm DOUBLE, 
	eye_behind_mm DOUBLE, 
	hands_height_mm DOUBLE, 
	shaft_lean_deg DOUBLE, 
	sole_tilt_deg DOUBLE, 
	ball_forward_mm DOUBLE, 
	posture_note TEXT, grip_style TEXT, 
	CONSTRAINT pk_setup_reading PRIMARY KEY (reading), 
	CONSTRAINT fk_setup_reading_reading_reading FOREIGN KEY(reading) REFERENCES reading (id) ON DELETE CASCADE
);
INSERT INTO "setup_reading" VALUES(1,20.5,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE shop_part (
	id INTEGER NOT NULL, 
	part_id TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	label TEXT, 
	head_shape TEXT, 
	sight_line TEXT, 
	neck_style TEXT, 
	offset_mm DOUBLE, 
	length_mm DOUBLE, 
	lie_deg DOUBLE, 
	loft_deg DOUBLE, 
	mass_g DOUBLE, 
	cg_from_axis_mm DOUBLE, 
	cg_depth_mm DOUBLE, 
	moi_vertical_axis_g_cm2 DOUBLE, 
	toe_hang_deg DOUBLE, 
	grip_diameter_mm DOUBLE, 
	stock INTEGER, 
	price DOUBLE, 
	loft_min_deg DOUBLE, 
	loft_max_deg DOUBLE, 
	lie_min_deg DOUBLE, 
	lie_max_deg DOUBLE, 
	fits TEXT, 
	extra JSON NOT NULL, 
	changed_at DATETIME NOT NULL, 
	changed_by TEXT NOT NULL, alloy TEXT, neck_joint TEXT, balance_from_butt_mm DOUBLE, bent_before_deg DOUBLE, 
	CONSTRAINT pk_shop_part PRIMARY KEY (id), 
	CONSTRAINT uq_shop_part_part_id UNIQUE (part_id)
);
INSERT INTO "shop_part" VALUES(1,'H1','head',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,350.5,NULL,NULL,NULL,NULL,NULL,2,NULL,NULL,NULL,NULL,NULL,NULL,'{"bay": "3"}','2026-05-01 09:30:00.000000','fitter',NULL,NULL,NULL,NULL);
CREATE TABLE shop_setting (
	id INTEGER NOT NULL, 
	name TEXT NOT NULL, 
	value TEXT NOT NULL, 
	changed_at DATETIME NOT NULL, 
	changed_by TEXT NOT NULL, 
	CONSTRAINT pk_shop_setting PRIMARY KEY (id), 
	CONSTRAINT uq_shop_setting_name UNIQUE (name)
);
INSERT INTO "shop_setting" VALUES(1,'units','mm','2026-05-01 09:30:00.000000','fitter');
CREATE TABLE trail (
	id INTEGER NOT NULL, 
	fitting INTEGER, 
	deed TEXT NOT NULL, 
	about TEXT NOT NULL, 
	done_at DATETIME NOT NULL, 
	done_by TEXT NOT NULL, 
	CONSTRAINT pk_trail PRIMARY KEY (id), 
	CONSTRAINT fk_trail_fitting_fitting FOREIGN KEY(fitting) REFERENCES fitting (id) ON DELETE CASCADE
);
INSERT INTO "trail" VALUES(1,1,'fitting-started','','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(2,1,'reading-recorded','putts 1001','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(3,1,'reading-recorded','putts 1002','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(4,1,'reading-taken-back','putts 1001','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(5,1,'order-made','virtual-0000-B','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(6,1,'putter-checked','virtual-0000-B','2026-05-01 09:30:00.000000','bench');
INSERT INTO "trail" VALUES(7,NULL,'rack-changed','H1','2026-05-01 09:30:00.000000','fitter');
INSERT INTO "trail" VALUES(8,1,'details-changed','','2026-05-01 09:30:00.000000','fitter');
CREATE TABLE voiding (
	id INTEGER NOT NULL, 
	reading INTEGER NOT NULL, 
	replaced_by INTEGER, 
	why TEXT NOT NULL, 
	voided_at DATETIME NOT NULL, 
	voided_by TEXT NOT NULL, 
	CONSTRAINT pk_voiding PRIMARY KEY (id), 
	CONSTRAINT uq_voiding_reading UNIQUE (reading), 
	CONSTRAINT fk_voiding_reading_reading FOREIGN KEY(reading) REFERENCES reading (id) ON DELETE CASCADE, 
	CONSTRAINT fk_voiding_replaced_by_reading FOREIGN KEY(replaced_by) REFERENCES reading (id) ON DELETE CASCADE
);
INSERT INTO "voiding" VALUES(1,32,33,'a gust','2026-05-01 09:30:00.000000','fitter');
CREATE INDEX ix_fitting_created_at ON fitting (created_at);
CREATE INDEX ix_fitting_found ON fitting (practice, created_at, id, search_text);
CREATE INDEX ix_fitting_golfer ON fitting (practice, golfer_key, created_at, search_text);
CREATE INDEX ix_file_read_header ON file_read (header);
CREATE INDEX ix_row_aside_fitting ON row_aside (fitting);
CREATE INDEX ix_golfer_note_golfer ON golfer_note (golfer);
CREATE INDEX ix_details_change_fitting ON details_change (fitting);
CREATE INDEX ix_trail_fitting ON trail (fitting);
COMMIT;
